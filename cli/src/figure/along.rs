use layload_core::report::{Report, StationReport};

use crate::plot::{Axis, Chart, Line, Panel};

/// Area and stress along the load path.
pub(crate) fn along(report: &Report) -> Chart {
    let stations = &report.stations;
    let line = |label: &str, dashed: bool, of: fn(&StationReport) -> f64| Line {
        label: label.into(),
        points: stations.iter().map(|station| (station.position_mm, Some(of(station)))).collect(),
        dashed,
    };
    let most = |of: fn(&StationReport) -> f64| stations.iter().map(of).fold(0.0, f64::max);
    let least = |of: fn(&StationReport) -> f64| stations.iter().map(of).fold(0.0, f64::min);
    let mut areas = vec![line("material", false, |s| s.area_mm2)];
    if stations.iter().any(|s| s.solid_area_mm2 < 0.999 * s.area_mm2) {
        areas.push(line("printed solid", true, |s| s.solid_area_mm2));
    }
    let panel = |up: Axis, lines: Vec<Line>| Panel { up, lines, bands: vec![], levels: vec![], points: vec![] };
    let area = panel(Axis::rounded("area, mm²", 0.0, 1.15 * most(|s| s.area_mm2)), areas);
    let (low, high) = (least(|s| s.stress_min_mpa), most(|s| s.stress_max_mpa));
    // Room for the names of the lines above them.
    let stress = panel(
        Axis::rounded("stress along the part, MPa", 1.1 * low, high + 0.45 * (high - low)),
        vec![line("greatest", false, |s| s.stress_max_mpa), line("least", false, |s| s.stress_min_mpa)],
    );
    let ends = |of: fn(&StationReport) -> f64| (stations.first().map_or(0.0, of), stations.last().map_or(1.0, of));
    let (from, to) = ends(|s| s.position_mm);
    let counted = report.part.path.as_ref().map_or("", |path| path.from.as_str());
    Chart {
        title: "Area and stress along the load path".into(),
        told: told(report),
        across: Axis::even(&format!("from {counted}, mm"), from, to),
        panels: vec![area, stress],
        spans: Vec::new(),
        mark: worst(report).map(|station| (station.position_mm, "most used".into())),
        notes: Vec::new(),
    }
}

fn worst(report: &Report) -> Option<&StationReport> {
    report.stations.iter().max_by(|a, b| a.utilisation.total_cmp(&b.utilisation))
}

fn told(report: &Report) -> String {
    let Some(worst) = worst(report) else { return "No cut carries load.".into() };
    format!(
        "Area of material and least and greatest stress in {} cuts. The most used cut is at {:.1} mm with {:.1} mm² and \
         {:.1} to {:.1} MPa: {:.0} % of its mean strength.",
        report.stations.len(),
        worst.position_mm,
        worst.area_mm2,
        worst.stress_min_mpa,
        worst.stress_max_mpa,
        100.0 * worst.utilisation
    )
}
