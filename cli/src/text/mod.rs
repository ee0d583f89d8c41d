//! The report for a terminal 80 columns wide.

mod compare;
mod directions;
mod field;
mod fit;
pub(crate) mod grounds;
pub(crate) mod headline;
pub(crate) mod lasting;
mod learn;
mod piston;
mod size;
mod study;
mod sweep;
pub(crate) mod table;
mod walls;
pub(crate) mod wrap;

use layload_core::report::Report;
use layload_core::report::words::answer::effects;

// Sentences that other hosts show too, and how numbers are written in them.
pub(crate) use compare::compare;
pub(crate) use directions::directions;
pub(crate) use fit::fit;
pub(crate) use layload_core::report::words::{advice, answer, numbers};
pub(crate) use learn::learn;
pub(crate) use size::size;
pub(crate) use study::study;
pub(crate) use sweep::sweep;
pub(crate) use walls::walls;

/// Whole report: the answer first, then what it rests on.
pub(crate) fn report(report: &Report) -> String {
    let mut text = String::new();
    headline::write(&mut text, report);
    table::modes(&mut text, report);
    field::write(&mut text, report);
    lasting::changes(&mut text, report);
    if let Some(piston) = &report.piston {
        piston::write(&mut text, report, piston);
    }
    if let Some(rod) = &report.rod {
        table::stations(&mut text, report);
        table::thin_sections(&mut text, rod);
        lasting::shape(&mut text, report, rod);
        table::part(&mut text, report, rod);
    }
    table::assumptions(&mut text, report);
    let limits = [report.notes.clone(), effects(report)].concat();
    wrap::list(&mut text, "Limits of this estimate", &limits);
    wrap::list(&mut text, "Cautions", &report.cautions);
    text
}
