use maud::{Markup, html};

/// A number of the report as people read it, with its full value and its place in the JSON (a JSON pointer, RFC 6901).
pub(super) fn number(pointer: &str, value: f64, shown: impl AsRef<str>) -> Markup {
    html! { data value=(value) data-of=(pointer) { (shown.as_ref()) } }
}

/// A sentence whose numbers stay on one line with their units, and arrows on that of what they come from.
pub(super) fn kept(sentence: &str) -> String {
    const UNITS: [&str; 12] = ["h", "min", "s", "rpm", "mm", "MPa", "°C", "%", "N", "K", "g", "bar"];
    let mut out = String::new();
    for word in sentence.split(' ') {
        let bare = word.trim_end_matches(['.', ',', ';', ':']);
        let after_number = out.ends_with(|letter: char| letter.is_ascii_digit());
        let arrow = word == "->";
        if !out.is_empty() {
            out.push(if arrow || (after_number && UNITS.contains(&bare)) { '\u{a0}' } else { ' ' });
        }
        out.push_str(if arrow { "\u{2192}" } else { word });
    }
    out
}
