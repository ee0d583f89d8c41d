use crate::job::Quantity;
use crate::report::Report;

/// A number of the list of assumptions, by its name there.
pub(super) fn number(report: &Report, name: &str) -> Option<f64> {
    let entry = report.assumptions.iter().find(|entry| entry.name == name)?;
    if let Quantity::Number(value) = entry.value { Some(value) } else { None }
}

/// A word of the list of assumptions, by its name there.
pub(super) fn word<'a>(report: &'a Report, name: &str) -> Option<&'a str> {
    let entry = report.assumptions.iter().find(|entry| entry.name == name)?;
    if let Quantity::Word(word) = &entry.value { Some(word) } else { None }
}
