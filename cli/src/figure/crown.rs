use layload_core::report::{CrownHeatReport, CrownMomentReport};

use crate::plot::{Axis, Chart, Level, Line, Panel};

/// Temperatures of a crown and what of it is soft, against the time since a cold start.
pub(crate) fn crown(heat: &CrownHeatReport) -> Chart {
    let line = |label: &str, dashed: bool, of: fn(&CrownMomentReport) -> f64| Line {
        label: label.into(),
        points: heat.table.iter().map(|moment| (moment.seconds, Some(of(moment)))).collect(),
        dashed,
    };
    let most = |of: fn(&CrownMomentReport) -> f64| heat.table.iter().map(of).fold(0.0, f64::max);
    let hottest = most(|m| m.surface_c).max(heat.softening_c);
    let mut lines = vec![line("face to the gas", false, |m| m.surface_c)];
    // A plate on the crown has a face of its own.
    if heat.table.iter().any(|m| (m.surface_c - m.plastic_face_c).abs() > 0.5) {
        lines.push(line("face of the plastic", true, |m| m.plastic_face_c));
    }
    lines.push(line("underside", true, |m| m.underside_c));
    let temperatures = Panel {
        up: Axis::rounded("temperature, °C", 0.0, 1.45 * hottest),
        lines,
        bands: Vec::new(),
        levels: vec![Level { value: heat.softening_c, label: format!("softens at {:.0} °C", heat.softening_c) }],
        points: Vec::new(),
    };
    let depth = Panel {
        up: Axis::rounded("soft depth, mm", 0.0, 1.3 * most(|m| m.soft_depth_mm).max(heat.counting_depth_mm)),
        lines: vec![line("soft", false, |m| m.soft_depth_mm)],
        bands: Vec::new(),
        levels: vec![Level {
            value: heat.counting_depth_mm,
            label: format!("counts as lost at {:.2} mm", heat.counting_depth_mm),
        }],
        points: Vec::new(),
    };
    let to = heat.table.last().map_or(heat.run_s, |moment| moment.seconds);
    let lost = [heat.crown_soft_s, heat.land_soft_s].into_iter().flatten().reduce(f64::min);
    let soft = lost.map_or_else(
        || "it does not come to count as lost".to_string(),
        |seconds| format!("it is lost after {seconds:.2} s, where the curves end"),
    );
    Chart {
        title: "The crown in one run from cold".into(),
        told: format!(
            "In a run of {:.2} s the crown's face reaches {:.0} °C and {:.2} mm of it get soft; {soft}.",
            heat.run_s,
            most(|m| m.surface_c),
            most(|m| m.soft_depth_mm)
        ),
        across: Axis::even("since the start, s", 0.0, to),
        panels: vec![temperatures, depth],
        spans: Vec::new(),
        mark: lost.map(|seconds| (seconds, "lost".into())),
        notes: Vec::new(),
    }
}
