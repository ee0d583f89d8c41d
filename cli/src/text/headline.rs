use layload_core::State;
use layload_core::report::words::answer::{self, Line, lines, sentence, word};
use layload_core::report::{Report, WarningReport};
use owo_colors::Style;

use super::wrap::paragraph;

/// The answer in the first lines.
pub(crate) fn write(text: &mut String, report: &Report) {
    paragraph(text, &format!("{}  ", word(report)), "       ", &sentence(report));
    write_lines(text, lines(report));
}

/// A line for every input that is hardly meant.
pub(super) fn unusual(text: &mut String, warnings: &[WarningReport]) {
    write_lines(text, answer::unusual(warnings));
}

fn write_lines(text: &mut String, lines: Vec<Line>) {
    for line in lines {
        paragraph(text, &format!("{:<7}", line.about), "       ", &line.text);
    }
}

/// The word with which the answer begins, and its colours: those of a good answer only where it holds, founded and checked.
pub(crate) fn mark(report: &Report) -> (&'static str, Style) {
    let good = report.verdict.state == State::Holds;
    let style = if good { Style::new().black().on_bright_cyan() } else { Style::new().black().on_bright_yellow() };
    (word(report), style.bold())
}
