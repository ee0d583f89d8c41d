use std::fmt::Write;

use layload_core::job::Quantity;
use layload_core::report::{ChangeGroup, ChangeReport, CompareReport, RevisionReport};

use super::numbers::{duration, significant, whole};
use super::safety;
use super::wrap::{heading, list, paragraph};

/// Changes below this share are counted, not listed.
const SAME: f64 = 0.0005;

/// Two revisions side by side, what changed first.
pub(crate) fn compare(report: &CompareReport) -> String {
    let mut text = String::new();
    side(&mut text, "Old    ", &report.old);
    side(&mut text, "New    ", &report.new);
    list(&mut text, "Findings", &report.findings);
    let groups = [
        (ChangeGroup::Geometry, "The part"),
        (ChangeGroup::Loads, "Loads and stresses"),
        (ChangeGroup::Heat, "Heat"),
        (ChangeGroup::Life, "Life and margins"),
        (ChangeGroup::Speed, "Speed"),
    ];
    let mut same = 0;
    for (group, title) in groups {
        let rows: Vec<&ChangeReport> = report.changes.iter().filter(|change| change.group == group).collect();
        let (shown, hidden): (Vec<&ChangeReport>, Vec<&ChangeReport>) = rows.into_iter().partition(|row| moved(row));
        same += hidden.len();
        if shown.is_empty() {
            continue;
        }
        heading(&mut text, title);
        for change in shown {
            row(&mut text, change);
        }
    }
    if same > 0 {
        let _ = writeln!(text, "\n{same} more numbers are the same; --json has them all");
    }
    if !report.inputs.is_empty() {
        heading(&mut text, "Values of the jobs that differ");
        for input in &report.inputs {
            let unit = if input.unit == "1" { "" } else { &input.unit };
            let (old, new) = (said(input.old.as_ref()), said(input.new.as_ref()));
            paragraph(&mut text, "  ", "    ", &format!("{}: {old} to {new} {unit}", input.name));
        }
    }
    text.push('\n');
    safety(&mut text);
    text
}

fn side(text: &mut String, first: &str, revision: &RevisionReport) {
    let word = revision.state.told();
    let title = revision.title.as_ref().map_or_else(String::new, |title| format!("{title}: "));
    let place = format!("first to fail: {}, {}", revision.governing_mode.words(), revision.governing_place);
    let unchecked: Vec<String> = revision.unchecked.iter().map(|what| format!(" Not checked: {what}.")).collect();
    paragraph(text, first, "       ", &format!("{title}{word}; {place}.{}", unchecked.concat()));
}

/// Whether a number is worth a row.
fn moved(change: &ChangeReport) -> bool {
    match (change.old, change.new) {
        (Some(old), Some(new)) => (new - old).abs() > SAME * old.abs().max(new.abs()),
        _ => true,
    }
}

fn row(text: &mut String, change: &ChangeReport) {
    let value = |number: Option<f64>| match (number, change.unit.as_str()) {
        (None, _) => "none".into(),
        (Some(seconds), "s") => duration(seconds),
        (Some(rpm), "rpm") => whole(rpm),
        (Some(number), _) => significant(number),
    };
    let unit = if matches!(change.unit.as_str(), "1" | "s") { "" } else { &change.unit };
    let difference = match (change.factor, change.old, change.new) {
        (Some(factor), _, _) if (0.5..2.0).contains(&factor) => format!("{:+.1} %", (factor - 1.0) * 100.0),
        (Some(factor), _, _) => format!("x {}", significant(factor)),
        (None, Some(old), Some(new)) if change.unit == "°C" => format!("{:+.1} K", new - old),
        _ => String::new(),
    };
    let _ = writeln!(
        text,
        "  {:<35} {:>13} {:>13} {unit:<5} {difference:>8}",
        change.name,
        value(change.old),
        value(change.new)
    );
}

fn said(value: Option<&Quantity>) -> String {
    match value {
        None => "not said".into(),
        Some(Quantity::Number(number)) => significant(*number),
        Some(Quantity::Word(word)) => word.clone(),
    }
}
