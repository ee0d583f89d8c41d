use layload_core::State;
use layload_core::report::Report;
use layload_core::report::words::{Action, Words};

use super::numbers::{duration, significant};
use super::wrap::{beside, paragraph, width};

/// Actions shown on the first screen.
const SHOWN: usize = 3;

/// Narrower terminals have numbers in the sentence.
const COLUMNS: usize = 60;

/// What to do, best first, with the margin and the life that each gives by itself.
pub(super) fn write(text: &mut String, report: &Report) {
    let list = Words(report).actions();
    if list.is_empty() {
        return;
    }
    let fails = report.verdict.state == State::Fails;
    let wide = width() >= COLUMNS;
    if wide {
        let enough = if fails { "  enough" } else { "" };
        beside(
            text,
            "",
            "",
            "What to do, best first, each by itself",
            &format!("{:>8}{:>11}{enough}", "margin", "life"),
        );
    } else {
        paragraph(text, "", "  ", "What to do, best first, each by itself");
    }
    for action in list.iter().take(SHOWN) {
        if wide { row(text, action, fails) } else { sentence(text, action) }
    }
}

fn row(text: &mut String, action: &Action, fails: bool) {
    let margin = action.margin.map_or_else(|| "-".into(), significant);
    let enough = match action.reaches().filter(|_| fails) {
        Some(true) if action.new_mesh => "  likely",
        Some(true) => "     yes",
        Some(false) => "      no",
        None if fails => "       -",
        None => "",
    };
    beside(text, "  ", "    ", &action.what, &format!("{margin:>8}{:>11}{enough}", life(action)));
}

fn sentence(text: &mut String, action: &Action) {
    let gives = action
        .margin
        .map_or_else(String::new, |margin| format!(": margin {}, life {}", significant(margin), life(action)));
    paragraph(text, "  ", "    ", &format!("{}{gives}", action.what));
}

fn life(action: &Action) -> String {
    match action.life_s {
        None => "-".into(),
        Some(seconds) if seconds <= 0.0 => "none".into(),
        Some(seconds) if duration(seconds).starts_with("over") => ">10 000 h".into(),
        Some(seconds) => duration(seconds),
    }
}
