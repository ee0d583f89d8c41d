use std::fmt::Write;
use std::path::Path;

use layload_core::report::CouponReport;

use super::numbers::significant;
use super::safety;
use super::wrap::{heading, list, paragraph};

/// What tests gave a card.
pub(crate) fn fit(report: &CouponReport, out: &Path) -> String {
    let mut text = String::new();
    let dated = report.date.as_ref().map_or_else(String::new, |date| format!(", {date}"));
    paragraph(
        &mut text,
        "Card   ",
        "       ",
        &format!(
            "{} goes to {}: {} values from {} tests{dated}; everything else as in {}.",
            report.card,
            out.display(),
            report.fitted.len(),
            report.tests,
            report.base
        ),
    );
    heading(&mut text, "Fitted values with their 90 % range");
    let _ = writeln!(text, "  {:<23} {:>9}  {:>20} {:>9}  tests", "", "value", "range", "before");
    for value in &report.fitted {
        let unit = if value.unit == "1" { "" } else { &value.unit };
        let range = format!("{} to {}", significant(value.low), significant(value.high));
        let before = value.base.map_or_else(|| "-".into(), significant);
        let outs = if value.run_outs > 0 { format!(", {} out", value.run_outs) } else { String::new() };
        let name = if value.name.chars().count() + unit.chars().count() > 21 {
            let _ = writeln!(text, "  {}{}{unit}", value.name, if unit.is_empty() { "" } else { ", " });
            String::new()
        } else if unit.is_empty() {
            value.name.clone()
        } else {
            format!("{}, {unit}", value.name)
        };
        let _ = writeln!(
            text,
            "  {name:<23} {:>9}  {range:>20} {before:>9}  {}{outs}",
            significant(value.value),
            value.tests
        );
    }
    list(&mut text, "Findings", &report.findings);
    paragraph(&mut text, "\nUse it with check --card ", "", &out.display().to_string());
    text.push('\n');
    safety(&mut text);
    text
}
