//! What a painted mesh says about itself, in words.

use super::scale::{IN_WORDS, STEPS};
use super::{BadEnd, Quantity};
use crate::plot::ticks::rounded;

/// Title with its unit: "Wall thickness, mm".
pub(super) fn headline(quantity: &Quantity) -> String {
    let mut letters = quantity.title().chars();
    let first = letters.next().map(|letter| letter.to_uppercase().to_string()).unwrap_or_default();
    let unit = if quantity.unit().is_empty() { String::new() } else { format!(", {}", quantity.unit()) };
    format!("{first}{}{unit}", letters.as_str())
}

/// A value of the quantity with its unit.
pub(super) fn value(quantity: &Quantity, value: f64) -> String {
    let number = rounded(value, quantity.high() - quantity.low());
    if quantity.unit().is_empty() { number } else { format!("{number} {}", quantity.unit()) }
}

/// How the colours are read, one sentence each.
pub(super) fn sentences(quantity: &Quantity) -> Vec<String> {
    let [good, way @ .., bad] = IN_WORDS;
    let (good_value, bad_value) = match quantity.bad_end() {
        BadEnd::Low => (quantity.high(), quantity.low()),
        BadEnd::High => (quantity.low(), quantity.high()),
    };
    let mut said = vec![
        format!(
            "{}: {STEPS} colour steps of equal width, from {good} at {} over {} to {bad} at {}, the bad end.",
            headline(quantity),
            value(quantity, good_value),
            way.join(" and "),
            value(quantity, bad_value)
        ),
        "Values beyond the ends take the colour of the end.".into(),
    ];
    if let Some(limit) = quantity.limit() {
        let side = match quantity.bad_end() {
            BadEnd::Low => "lower",
            BadEnd::High => "higher",
        };
        said.push(format!("The limit is {}: {side} values are beyond it.", value(quantity, limit)));
    }
    said.push("Grey was not measured.".into());
    said.push("An estimate, not an approval of the part.".into());
    said
}
