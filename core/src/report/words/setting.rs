use crate::job::{BUILD_DIRECTION, MATERIAL, MOISTURE, PRESSURE_TABLE, STROKES};
use crate::report::{BondHeight, Report};

use super::numbers::significant;
use super::taken::{number, word};

/// Share by which the peak of a duty that never opens the throttle differs from the stated one.
const OPEN: f64 = 0.01;

/// The engine as taken, with the peak pressure and where that comes from.
pub(super) fn engine(report: &Report) -> String {
    let taken = |key: &str| number(report, key).map_or_else(|| "?".into(), |value| format!("{value}"));
    let peak = report.loads.peak_pressure_bar;
    let from = match number(report, "peak_pressure_bar") {
        _ if word(report, PRESSURE_TABLE).is_some() => "measured".into(),
        Some(open) if (open - peak).abs() > OPEN * open => format!("given: {} at open throttle", significant(open)),
        Some(_) => "given".into(),
        None => "worked out".to_string(),
    };
    format!(
        "{}, bore {}, stroke {} mm, {} g, peak {} bar ({from})",
        word(report, STROKES).unwrap_or("four-stroke"),
        taken("bore_mm"),
        taken("stroke_mm"),
        taken("reciprocating_mass_g"),
        significant(peak),
    )
}

/// The print as taken.
pub(super) fn print(report: &Report) -> String {
    let setting = |key: &str| number(report, key).map_or_else(|| "?".into(), |value| format!("{value}"));
    format!(
        "{} {}, {}, layers {} mm, {} walls, infill {} %",
        word(report, MATERIAL).unwrap_or("unnamed material"),
        word(report, MOISTURE).unwrap_or("conditioned"),
        word(report, BUILD_DIRECTION).unwrap_or("flat"),
        setting("layer_height_mm"),
        setting("walls"),
        setting("infill_percent"),
    )
}

/// How the layer bond comes about: time of a layer and warmth of the one below.
pub(super) fn bond(report: &Report) -> Option<String> {
    let bond = report.print.bond.as_ref()?;
    let span = |of: fn(&BondHeight) -> f64| {
        let all = bond.heights.iter().map(of);
        let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)));
        if high - low < 1.0 { format!("{low:.0}") } else { format!("{low:.0} to {high:.0}") }
    };
    Some(format!(
        "layer bond {:.2} to {:.2} of the card's: one layer takes {} s and meets the layer below at {} °C",
        bond.least_factor,
        bond.most_factor,
        span(|at| at.layer_time_s),
        span(|at| at.below_c)
    ))
}
