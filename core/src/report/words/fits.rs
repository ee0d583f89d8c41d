use crate::report::{FitReport, PistonReport, Report, RodReport};

use super::numbers::duration;

/// Length, clearances and fits in one sentence; none where the part has none to tell.
pub(super) fn fits(report: &Report) -> Option<String> {
    if let Some(piston) = &report.piston {
        return running(piston);
    }
    let mut parts: Vec<String> = length(report).into_iter().collect();
    parts.extend(report.rod.iter().flat_map(joints));
    (!parts.is_empty()).then(|| parts.join("; "))
}

/// How much longer the rod gets.
fn length(report: &Report) -> Option<String> {
    let clearance = report.clearance.as_ref()?;
    let longer = clearance.elastic_mm + clearance.creep_mm + clearance.thermal_mm;
    let left = match (clearance.given_mm, clearance.remaining_mm) {
        (Some(given), Some(left)) if left <= 0.0 => {
            format!("the piston strikes the head: {left:.2} mm left of a gap of {given:.2} mm")
        }
        (Some(given), Some(left)) => format!("{left:.2} mm left of the {given:.2} mm gap to the head"),
        _ => "to check the gap to the head set engine.piston_to_head_mm".into(),
    };
    Some(format!("rod grows {longer:.2} mm; {left}"))
}

/// How pressed rings and clamped caps hold.
fn joints(rod: &RodReport) -> Vec<String> {
    let rings = rod.fits.iter().map(grip);
    let caps = rod.caps.iter().map(|cap| {
        let shut = match cap.opens_after_s {
            Some(seconds) if seconds <= 0.0 => "is open from the start".into(),
            Some(seconds) => format!("opens after {}", duration(seconds)),
            None => "stays shut".to_string(),
        };
        format!("{} cap {shut}", cap.role)
    });
    rings.chain(caps).collect()
}

/// How long a pressed ring grips.
fn grip(fit: &FitReport) -> String {
    let grips = match fit.grip_lasts_s {
        Some(seconds) if seconds <= 0.0 => "does not grip when warm".into(),
        Some(seconds) => format!("grips for {}", duration(seconds)),
        None => "keeps its grip".to_string(),
    };
    format!("{} ring {grips}", fit.role)
}

/// Running clearance of a piston.
fn running(piston: &PistonReport) -> Option<String> {
    let told = piston.growth.iter().map(|growth| format!("{} {:.3} mm", growth.place, growth.running_clearance_mm));
    let told: Vec<String> = told.collect();
    (!told.is_empty()).then(|| format!("running clearance: {}", told.join(", ")))
}
