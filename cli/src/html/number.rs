use maud::{Markup, html};

/// A number of the report as people read it, with its full value and its place in the JSON (a JSON pointer, RFC 6901).
pub(super) fn number(pointer: &str, value: f64, shown: impl AsRef<str>) -> Markup {
    html! { data value=(value) data-of=(pointer) { (shown.as_ref()) } }
}
