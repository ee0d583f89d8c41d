use layload_core::report::Report;
use maud::{Markup, html};

use crate::explain::{Entry, found, of_mode};

/// Terms that every report uses.
const TERMS: [&str; 15] = [
    "margin",
    "B10",
    "HOLDS, unproven",
    "Confidence",
    "duty",
    "station",
    "used",
    "build direction",
    "given",
    "mesh",
    "coupon",
    "published",
    "pooled",
    "common practice",
    "memory",
];

/// Name by which a term is linked to.
pub(super) fn anchor(term: &str) -> String {
    let letters = term.to_lowercase();
    let plain: String = letters.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
    let parts: Vec<&str> = plain.split('-').filter(|part| !part.is_empty()).collect();
    format!("word-{}", parts.join("-"))
}

/// The words used, explained.
pub(super) fn section(report: &Report) -> Markup {
    let mut modes: Vec<_> = report.modes.iter().map(|mode| mode.mode).collect();
    modes.sort_unstable();
    modes.dedup();
    let terms = TERMS.iter().filter_map(|term| found(term).first().copied());
    let entries: Vec<Entry> = modes.into_iter().map(of_mode).chain(terms).collect();
    html! {
        section id="words" {
            h2 { "Words" }
            dl.words {
                @for entry in &entries {
                    div id=(anchor(entry.name())) {
                        dt { (entry.names.join(", ")) }
                        dd { (entry.what) " " (entry.more) }
                    }
                }
            }
        }
    }
}
