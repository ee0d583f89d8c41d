use std::fmt::Write;

use layload_core::report::Report;

use super::numbers::{duration, significant, times};
use super::wrap::{heading, paragraph};

/// Most cells of the bar of a change.
const CELLS: f64 = 11.0;

/// What changes of the input do, the strongest first.
pub(crate) fn changes(text: &mut String, report: &Report) {
    if report.sensitivities.is_empty() {
        return;
    }
    heading(text, "What a change does, the strongest first");
    text.push_str("                                                    margin     life\n");
    let logarithm = |factor: f64| factor.max(1e-6).ln();
    let strongest = report.sensitivities.iter().map(|entry| logarithm(entry.margin_factor).abs()).fold(0.02, f64::max);
    for entry in &report.sensitivities {
        let change = format!("{}, {}", entry.input, entry.change);
        let life = entry.life_factor.map_or_else(|| "-".into(), times);
        let size = logarithm(entry.margin_factor);
        let cells = (size.abs() / strongest * CELLS).round() as usize;
        let sign = if size < 0.0 { "-" } else { "+" };
        let margin = times(entry.margin_factor);
        let _ = writeln!(text, "  {change:<47} {margin:>8} {life:>8} {}", sign.repeat(cells.min(CELLS as usize)));
    }
}

/// How the rod changes its shape, and how its pressed rings hold.
pub(crate) fn shape(text: &mut String, report: &Report) {
    let Some(clearance) = &report.clearance else { return };
    heading(text, "Length and fits");
    let left = match (clearance.given_mm, clearance.remaining_mm) {
        (Some(given), Some(left)) if left <= 0.0 => {
            format!("the piston can strike the head: the gap of {given:.2} mm is used up, {left:.2} mm")
        }
        (Some(given), Some(left)) => format!("of the gap of {given:.2} mm to the head {left:.2} mm are left"),
        _ => "give engine.piston_to_head_mm to hear what that leaves of the gap to the head".into(),
    };
    paragraph(
        text,
        "  ",
        "    ",
        &format!(
            "between the bore centres {:.3} mm longer at the greatest pull, {:+.3} mm by creep over the wanted life, {:+.3} \
             mm by heat; {left}",
            clearance.elastic_mm, clearance.creep_mm, clearance.thermal_mm
        ),
    );
    for fit in &report.fits {
        let grip = match fit.grip_lasts_s {
            Some(seconds) if seconds <= 0.0 => "it does not grip at running temperature and can walk at once".into(),
            Some(seconds) => format!("it can walk after {}", duration(seconds)),
            None => "it grips a hundred times the wanted life".to_string(),
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
    }
}
