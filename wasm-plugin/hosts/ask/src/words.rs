//! Answers in lines of plain English: the sentences of the core, a thought a line.

use layload_core::report::words::Words;
use layload_core::report::{Report, WallsReport};

/// Of a check: the answer, the lines under it, what to change first, the cautions.
pub(crate) fn check(report: &Report) -> String {
    let words = Words(report);
    let mut said = vec![format!("{}: {}", words.word(), words.sentence())];
    said.extend(words.lines().iter().map(|line| format!("{}: {}", line.about, line.text)));
    said.extend(words.advice());
    lines(&said, &report.cautions)
}

/// Of walls: each thin one.
pub(crate) fn walls(report: &WallsReport) -> String {
    let said: Vec<String> = report.thin_regions.iter().map(|thin| format!("{}: {}", thin.place, thin.reason)).collect();
    lines(&said, &report.cautions)
}

/// What is said, and the cautions.
pub(crate) fn lines(said: &[String], cautions: &[String]) -> String {
    said.iter().chain(cautions).flat_map(|line| [line, "\n"]).collect()
}
