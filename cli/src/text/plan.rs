use layload_core::report::{MarginBandReport, PlanReport, PlanStepReport};

use super::numbers::{duration, significant, whole};
use super::safety;
use super::screen::warnings;
use super::wrap::{heading, list, paragraph};

/// A ladder of runs, its cautions first.
pub(crate) fn plan(report: &PlanReport) -> String {
    let mut text = String::new();
    paragraph(&mut text, "", "  ", "Before any step");
    for caution in &report.cautions {
        paragraph(&mut text, "- ", "  ", caution);
    }
    text.push('\n');
    aim(&mut text, report);
    if !report.starts_low_enough {
        paragraph(&mut text, "Start       ", "            ", "NOT LOW ENOUGH: see the first of the limits below.");
    }
    warnings(&mut text, &report.warnings);
    heading(&mut text, "The ladder: parts broken in each step, and the margin at the duty if it lives or breaks");
    let mut beyond = false;
    for step in &report.steps {
        if step.beyond_duty && !beyond {
            beyond = true;
            paragraph(&mut text, "  ", "  ", "Above the duty, only to learn how much is left in a spent part:");
        }
        row(&mut text, step);
    }
    heading(
        &mut text,
        &format!("After each step: stop, let it cool for {}, take it out and look", duration(report.pause_s)),
    );
    for look in &report.inspect {
        let at = look.center_mm.map_or_else(String::new, |at| {
            format!(" ({})", at.map(|mm| format!("{:.1}", (mm * 10.0).round() / 10.0 + 0.0)).join(", "))
        });
        paragraph(&mut text, "- ", "  ", &format!("{}{at}: {}.", look.place, look.look));
    }
    let signs: Vec<String> = report.stop_signs.iter().map(|sign| format!("{sign}.")).collect();
    list(&mut text, "Stop signs: at any of them the part is not run again", &signs);
    teaches(&mut text, report);
    list(&mut text, "Limits of this plan", &report.notes);
    text.push('\n');
    safety(&mut text);
    text
}

fn aim(text: &mut String, report: &PlanReport) {
    let told = format!(
        "{} at {} rpm; margin now {}.",
        duration(report.wanted_life_s),
        whole(report.duty_rpm),
        band(&report.margin)
    );
    paragraph(text, "Aim         ", "            ", &told);
    if !report.steps.is_empty() {
        let end = if report.reaches { "they end with the wanted life" } else { "the wanted life is not reached" };
        let told = format!("{} of parts come through the steps up to the duty; {end}.", share(report.come_through));
        paragraph(text, "Odds        ", "            ", &told);
    }
}

fn row(text: &mut String, step: &PlanStepReport) {
    let head = format!("  {:>2}  ", step.number);
    let told = format!(
        "{} rpm, throttle {:.0} %, {}: breaks {} ({} so far run in all); first {}, {}. Lives: margin {}, band {} times narrower. \
         Breaks: margin {}.",
        whole(step.rpm),
        100.0 * step.throttle,
        duration(step.seconds),
        share(step.breaks),
        duration(step.total_s),
        step.mode.words(),
        step.place,
        band(&step.if_it_lives),
        significant(step.narrowed),
        band(&step.if_it_breaks)
    );
    paragraph(text, &head, "      ", &told);
}

fn teaches(text: &mut String, report: &PlanReport) {
    let mut lines = Vec::new();
    let bars = &report.bars;
    if bars.first {
        lines.push(format!(
            "First print {} test bars and break them (layload fit): they narrow the band {} times, the first part {} times.",
            bars.bars,
            significant(bars.narrowed),
            significant(bars.part_narrowed)
        ));
    } else {
        lines.push(format!(
            "The first part teaches more than {} test bars: it narrows the band {} times, they {} times.",
            bars.bars,
            significant(bars.part_narrowed),
            significant(bars.narrowed)
        ));
    }
    if let Some(after) = report.after_parts.last() {
        lines.push(format!(
            "After {} parts the band is {} times narrower (half of {} drawn logs by more), and {} of them are broken on average.",
            after.parts,
            significant(after.narrowed),
            after.draws,
            significant(after.broken)
        ));
    }
    lines.push(
        "Log each run, and read each break (layload diagnose --log): the next plan starts from what they taught."
            .into(),
    );
    list(text, "What the parts teach", &lines);
}

fn band(band: &MarginBandReport) -> String {
    format!("{} ({} to {})", significant(band.middle), significant(band.low), significant(band.high))
}

/// A share of parts in words.
fn share(share: f64) -> String {
    if share < 1e-6 {
        "fewer than 1 in a million".into()
    } else if share < 0.01 {
        format!("1 in {}", whole(1.0 / share))
    } else {
        format!("{:.0} %", 100.0 * share)
    }
}
