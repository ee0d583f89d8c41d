use layload_core::report::Report;
use layload_core::report::words::answer::{lines, sentence, word};
use owo_colors::Style;

use super::wrap::paragraph;

/// The answer in the first lines.
pub(crate) fn write(text: &mut String, report: &Report) {
    paragraph(text, &format!("{}  ", word(report)), "       ", &sentence(report));
    for line in lines(report) {
        paragraph(text, &format!("{:<7}", line.about), "       ", &line.text);
    }
}

/// The word with which the answer begins, and its colours: never those of a good answer on values from memory alone.
pub(crate) fn mark(report: &Report) -> (&'static str, Style) {
    let good = report.verdict.holds && report.verdict.well_founded;
    let style = if good { Style::new().black().on_bright_cyan() } else { Style::new().black().on_bright_yellow() };
    (word(report), style.bold())
}
