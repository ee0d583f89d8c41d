use layload_core::report::Report;
use layload_core::report::words::answer::{lines, sentence, word};
use owo_colors::{OwoColorize, Style};

use super::wrap::paragraph;

/// The answer in the first lines.
pub(crate) fn write(text: &mut String, report: &Report, color: bool) {
    let verdict = &report.verdict;
    let word = word(report);
    let mut first = String::new();
    paragraph(&mut first, &format!("{word}  "), "       ", &sentence(report));
    if color {
        // Never the colour of a good answer on values from memory alone.
        let good = verdict.holds && verdict.well_founded;
        let style = if good { Style::new().black().on_bright_cyan() } else { Style::new().black().on_bright_yellow() };
        first = first.replacen(word, &word.style(style.bold()).to_string(), 1);
    }
    text.push_str(&first);
    for line in lines(report) {
        paragraph(text, &format!("{:<7}", line.about), "       ", &line.text);
    }
}
