use layload_core::State;
use layload_core::report::words::{Line, Words};
use layload_core::report::{Report, WarningReport};
use owo_colors::Style;

use super::wrap::paragraph;
use super::{actions, places, safety};
use crate::args::ShowArguments;

/// Most inputs that are hardly meant that are named; more of them are counted.
const UNUSUAL: usize = 3;

/// The answer on one screen, in the order of every output: verdict, weakest places, confidence, what was not checked, what
/// to do, engine, print, heat, fits, safety.
pub(super) fn write(text: &mut String, report: &Report, show: ShowArguments) {
    verdict(text, report);
    warnings(text, &report.warnings);
    left_out(text, report.part.left_out.len());
    places::write(text, report);
    write_lines(text, Words(report).doubts());
    actions::write(text, report);
    write_lines(text, Words(report).setting());
    safety(text);
    if !show.all {
        paragraph(text, "More        ", "            ", "--stations --changes --inputs --limits --all");
    }
}

/// The verdict with its life, margin and top speed.
pub(super) fn verdict(text: &mut String, report: &Report) {
    paragraph(text, "", "  ", &Words(report).verdict());
}

/// A line for every input that is hardly meant.
pub(super) fn warnings(text: &mut String, warnings: &[WarningReport]) {
    let lines = Words::unusual(warnings);
    let more = lines.len().saturating_sub(UNUSUAL);
    write_lines(text, lines.into_iter().take(UNUSUAL).collect());
    if more > 0 {
        paragraph(
            text,
            "            ",
            "            ",
            &format!("{more} more inputs are unusual: see the JSON report."),
        );
    }
}

/// That bodies of the file are not in the part: one may be a pin that fills a bore.
fn left_out(text: &mut String, bodies: usize) {
    if bodies > 0 {
        let are = if bodies == 1 { "body of the file is" } else { "bodies of the file are" };
        paragraph(text, "Left out    ", "            ", &format!("{bodies} {are} not in the part: see --inputs."));
    }
}

fn write_lines(text: &mut String, lines: Vec<Line>) {
    for line in lines {
        paragraph(text, &format!("{:<12}", line.about), "            ", &line.text);
    }
}

/// The word with which the answer begins, and its colours: those of a good answer only where it holds, measured and checked.
pub(crate) fn mark(report: &Report) -> (&'static str, Style) {
    let good = report.verdict.state == State::Holds;
    let style = if good { Style::new().black().on_bright_cyan() } else { Style::new().black().on_bright_yellow() };
    (Words(report).word(), style.bold())
}
