use crate::job::Quantity;
use crate::report::Report;

/// A number of the list of assumptions, by its key in a job.
pub(super) fn number(report: &Report, key: &str) -> Option<f64> {
    let entry = report.assumptions.iter().find(|entry| entry.key == key)?;
    if let Quantity::Number(value) = entry.value { Some(value) } else { None }
}

/// A word of the list of assumptions, by its key in a job.
pub(super) fn word<'a>(report: &'a Report, key: &str) -> Option<&'a str> {
    let entry = report.assumptions.iter().find(|entry| entry.key == key)?;
    if let Quantity::Word(word) = &entry.value { Some(word) } else { None }
}
