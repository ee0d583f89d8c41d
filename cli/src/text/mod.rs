//! Answers for a terminal of 40 to 120 columns.

mod actions;
mod any;
mod compare;
mod diagnose;
mod directions;
mod field;
mod fit;
pub(crate) mod grounds;
pub(crate) mod lasting;
mod learn;
mod piston;
mod places;
mod plan;
mod safety;
mod screen;
mod size;
mod study;
mod sweep;
pub(crate) mod table;
mod totals;
mod walls;
pub(crate) mod wrap;

use layload_core::report::Report;
use layload_core::report::words::Words;

use crate::args::ShowArguments;

// Sentences that other hosts show too, and how numbers are written in them.
pub(crate) use any::features;
pub(crate) use compare::compare;
pub(crate) use diagnose::diagnosis;
pub(crate) use directions::directions;
pub(crate) use fit::fit;
pub(crate) use layload_core::report::words::numbers;
pub(crate) use learn::learn;
pub(crate) use plan::plan;
pub(crate) use safety::safety;
pub(crate) use screen::mark;
pub(crate) use size::size;
pub(crate) use study::study;
pub(crate) use sweep::sweep;
pub(crate) use totals::{Row, totals};
pub(crate) use walls::walls;

/// The answer of a check: the first screen, then what is asked for beyond it.
pub(crate) fn report(report: &Report, show: ShowArguments) -> String {
    let mut text = String::new();
    if show.quiet {
        screen::verdict(&mut text, report);
        safety(&mut text);
        return text;
    }
    screen::write(&mut text, report, show);
    if show.stations() {
        table::modes(&mut text, report);
        field::write(&mut text, report);
        if let Some(piston) = &report.piston {
            piston::write(&mut text, report, piston);
        }
        if let Some(rod) = &report.rod {
            table::stations(&mut text, report);
            table::thin_sections(&mut text, rod);
            lasting::shape(&mut text, report, rod);
        }
    }
    if show.changes() {
        lasting::changes(&mut text, report);
    }
    if show.inputs() {
        part(&mut text, report);
        table::assumptions(&mut text, report);
    }
    if show.limits() {
        let limits: Vec<String> = Words(report).lives().into_iter().chain(report.notes.clone()).collect();
        wrap::list(&mut text, "Limits of this estimate", &[limits, Words(report).effects()].concat());
        wrap::list(&mut text, "Cautions", &report.cautions);
    }
    text
}

/// The part as recognised.
fn part(text: &mut String, report: &Report) {
    match (&report.piston, &report.rod) {
        (Some(piston), _) => piston::part(text, report, piston),
        (None, Some(rod)) => table::part(text, report, rod),
        (None, None) => {
            if let Some(any) = &report.any {
                any::places(text, any);
            }
        }
    }
}
