use std::fmt::Write;

use layload_core::RollingElement;
use layload_core::report::{CapReport, ChangeMeasure, RatingReport, Report, RodReport, SensitivityReport};

use super::numbers::{duration, significant, times};
use super::wrap::{beside, heading, paragraph};

/// Most cells of the bar of a change.
const CELLS: f64 = 9.0;

/// What changes of the input do, largest effect first; the bars show what the list is sorted by.
pub(crate) fn changes(text: &mut String, report: &Report) {
    if report.sensitivities.is_empty() {
        return;
    }
    heading(text, &format!("What a change does, largest effect on {} first", measure(report)));
    beside(text, "", "", "", &format!("{:>9} {:>9} {:<9}", "margin", "life", ""));
    let most = report.sensitivities.iter().map(|entry| entry.effect().abs()).fold(f64::MIN_POSITIVE, f64::max);
    for entry in &report.sensitivities {
        let (margin, life, effect) = (factor(entry.margin_factor), lasts(entry), entry.effect());
        // A change that is told has a cell at least.
        let cells = (effect.abs() / most * CELLS).ceil() as usize;
        let bar = if effect < 0.0 { "-" } else { "+" }.repeat(cells.min(CELLS as usize));
        beside(text, "  ", "      ", &entry.told(), &format!("{margin:>9} {life:>9} {bar:<9}"));
    }
    if report.sensitivities.iter().any(|entry| entry.life_factor == Some(0.0)) {
        text.push_str("  none: fails at the first full load\n");
    }
}

/// What the list of changes is sorted and drawn by.
pub(crate) fn measure(report: &Report) -> &'static str {
    match report.sensitivities.first().map(|entry| entry.measured_by) {
        Some(ChangeMeasure::Life) => "life",
        Some(ChangeMeasure::Margin) | None => "margin",
    }
}

/// A factor, or that it is below what the model resolves.
pub(crate) fn factor(factor: f64) -> String {
    if (factor - 1.0).abs() < SensitivityReport::RESOLVED { "no change".into() } else { times(factor) }
}

/// Factor on life, where there is one to compare.
pub(crate) fn lasts(entry: &SensitivityReport) -> String {
    match entry.life_factor {
        Some(0.0) => "none".into(),
        Some(life) => factor(life),
        None => "-".into(),
    }
}

/// How the rod changes its shape, and how its pressed rings hold.
pub(crate) fn shape(text: &mut String, report: &Report, rod: &RodReport) {
    let Some(clearance) = &report.clearance else { return };
    heading(text, "Length and fits");
    let left = match (clearance.given_mm, clearance.remaining_mm) {
        (Some(given), Some(left)) if left <= 0.0 => {
            format!("the piston strikes the head: {left:.2} mm left of a gap of {given:.2} mm")
        }
        (Some(given), Some(left)) => format!("{left:.2} mm left of the {given:.2} mm gap to the head"),
        _ => "to check the gap to the head set engine.piston_to_head_mm".into(),
    };
    paragraph(
        text,
        "  ",
        "    ",
        &format!(
            "longer between the bore centres: {:.3} mm at the greatest pull, {:+.3} mm by creep over the wanted life, {:+.3} mm by \
             heat; {left}",
            clearance.elastic_mm, clearance.creep_mm, clearance.thermal_mm
        ),
    );
    for fit in &rod.fits {
        let grip = match fit.grip_lasts_s {
            Some(seconds) if seconds <= 0.0 => "it does not grip at running temperature, so it can turn".into(),
            Some(seconds) => format!("it grips for {}, then it can turn", duration(seconds)),
            None => "it grips for more than 100 times the wanted life".to_string(),
        };
        let loose = fit.loose_at_c.map_or_else(String::new, |celsius| format!(", loose from {celsius:.0} °C"));
        paragraph(
            text,
            "  ",
            "    ",
            &format!(
                "{}: {} pressed in with {:.3} to {:.3} mm: hoop stress {} MPa when assembled ({:.0} % of the strength there), \
                 {} MPa warm; {grip}{loose}",
                fit.role,
                fit.ring,
                fit.interference_least_mm,
                fit.interference_most_mm,
                significant(fit.hoop_assembled_mpa),
                fit.utilisation_assembled * 100.0,
                significant(fit.hoop_running_mpa)
            ),
        );
        if let Some(rating) = &fit.rating {
            paragraph(text, "    ", "    ", &rated(rating, report.verdict.wanted_life_s));
        }
    }
    for cap in &rod.caps {
        paragraph(text, "  ", "    ", &clamped(cap));
        for row in &cap.fading {
            let _ = writeln!(
                text,
                "    after {:>7}  {:>7.0} N  {:>4.0} % lost",
                duration(row.hours * 3600.0),
                row.preload_n,
                row.lost * 100.0
            );
        }
    }
}

/// Rating life of a rolling bearing.
pub(crate) fn rated(rating: &RatingReport, wanted_s: f64) -> String {
    let swings = if rating.swings { ", by the angle it swings" } else { "" };
    let short = if rating.life_s < wanted_s { ", less than wanted" } else { "" };
    format!(
        "rating life by ISO 281: 90 % of bearings last {}{short} ({:.3} million turns{swings}; C {:.0} N, equivalent load \
         {:.0} N, p {}). A soft housing shortens it.",
        duration(rating.life_s),
        rating.life_turns / 1e6,
        rating.dynamic_rating_n,
        rating.equivalent_load_n,
        match rating.rolling {
            RollingElement::Ball => "3",
            RollingElement::Roller => "10/3",
        }
    )
}

/// How a clamped cap holds.
pub(crate) fn clamped(cap: &CapReport) -> String {
    let opens = match cap.opens_after_s {
        Some(seconds) if seconds <= 0.0 => "which opens the joint from the start".into(),
        Some(seconds) => format!("which opens the joint after {}", duration(seconds)),
        None => "and the joint stays shut for more than 100 times the wanted life".to_string(),
    };
    format!(
        "{} cap: {}, {:.0} N together ({} MPa in a stud, {} MPa under a head, {:.0} % of the compression strength there); \
         {:.0} N when warm, {:.0} N after the wanted life. The running rod pulls on it with {:.0} N, {opens}.",
        cap.role,
        cap.studs,
        cap.preload_n,
        significant(cap.stud_stress_mpa),
        significant(cap.squeeze_mpa),
        cap.utilisation_assembled * 100.0,
        cap.preload_warm_n,
        cap.preload_left_n,
        cap.joint_pull_n
    )
}
