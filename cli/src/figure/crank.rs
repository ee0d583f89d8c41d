use layload_core::report::{CrankMomentReport, CrankReport};

use crate::plot::{Axis, Chart, Level, Line, Panel};

/// Axial force and, of a rod, bending moment against the crank angle; of a piston the side thrust.
pub(crate) fn crank(report: &CrankReport) -> Chart {
    let moments = &report.moments;
    let points = |of: &dyn Fn(&CrankMomentReport) -> Option<f64>| -> Vec<(f64, Option<f64>)> {
        moments.iter().map(|moment| (moment.crank_deg, of(moment))).collect()
    };
    let panel = |words: String, points: Vec<(f64, Option<f64>)>| {
        let values = points.iter().filter_map(|point| point.1);
        let (low, high) = values.fold((0.0, 0.0), |(low, high), v| (f64::min(low, v), f64::max(high, v)));
        let room = 0.06 * (high - low).max(1e-9);
        Panel {
            up: Axis::rounded(&words, low - room, high + room),
            lines: vec![Line { label: words, points, dashed: false }],
            bands: Vec::new(),
            levels: vec![Level { value: 0.0, label: String::new() }],
            points: Vec::new(),
        }
    };
    let axial = format!("axial force at {:.1} mm, N", report.axial_position_mm);
    let mut panels = vec![panel(axial, points(&|moment| Some(moment.axial_force_n)))];
    if let Some(position) = report.bending_position_mm {
        let words = format!("bending moment at {position:.1} mm, N mm");
        panels.push(panel(words, points(&|moment| moment.bending_moment_n_mm)));
    } else {
        panels.push(panel("side thrust, N".into(), points(&|moment| moment.side_thrust_n)));
    }
    Chart {
        title: "Forces over one cycle".into(),
        told: told(report),
        across: Axis::even(
            "crank angle from firing top centre, degrees",
            0.0,
            moments.last().map_or(360.0, |moment| (moment.crank_deg / 180.0).ceil() * 180.0),
        ),
        panels,
        spans: Vec::new(),
        mark: None,
        notes: Vec::new(),
    }
}

fn told(report: &CrankReport) -> String {
    let by = |a: &&CrankMomentReport, b: &&CrankMomentReport| a.axial_force_n.total_cmp(&b.axial_force_n);
    let (Some(push), Some(pull)) = (report.moments.iter().min_by(by), report.moments.iter().max_by(by)) else {
        return String::new();
    };
    format!(
        "At {:.0} rpm and {:.0} % throttle the axial force at {:.1} mm runs from {:.0} N at {:.0}° to {:+.0} N at {:.0}°; \
         tension is positive.",
        report.rpm,
        100.0 * report.throttle,
        report.axial_position_mm,
        push.axial_force_n,
        push.crank_deg,
        pull.axial_force_n,
        pull.crank_deg
    )
}
