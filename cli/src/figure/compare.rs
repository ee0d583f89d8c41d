use layload_core::report::{CompareReport, PathChangeReport};

use crate::plot::{Axis, Chart, Level, Line, Panel};

/// Area, thinnest wall and use of strength along both parts.
pub(crate) fn compare(report: &CompareReport) -> Chart {
    let path = &report.path;
    let line = |label: &str, dashed: bool, of: &dyn Fn(&PathChangeReport) -> Option<f64>| Line {
        label: label.into(),
        points: path.iter().map(|point| (100.0 * point.share, of(point))).collect(),
        dashed,
    };
    let panel = |label: &str,
                 old: &dyn Fn(&PathChangeReport) -> Option<f64>,
                 new: &dyn Fn(&PathChangeReport) -> Option<f64>,
                 levels: Vec<Level>| {
        let greatest = path.iter().flat_map(|point| [old(point), new(point)]).flatten().fold(0.0, f64::max);
        let greatest = levels.iter().map(|level| level.value).fold(greatest, f64::max);
        Panel {
            up: Axis::even(label, 0.0, 1.08 * greatest),
            lines: vec![line("new", false, new), line("old", true, old)],
            bands: Vec::new(),
            levels,
            points: Vec::new(),
        }
    };
    let limit = Level { value: 1.0, label: "mean strength".into() };
    Chart {
        title: "Two revisions along the load path".into(),
        told: report.findings.join(" "),
        across: Axis::even("share of the load path, %", 0.0, 100.0),
        panels: vec![
            panel("area, mm²", &|p| Some(p.old_area_mm2), &|p| Some(p.new_area_mm2), Vec::new()),
            panel("thinnest wall, mm", &|p| p.old_wall_mm, &|p| p.new_wall_mm, Vec::new()),
            panel(
                "one load: stress over strength",
                &|p| Some(p.old_utilisation),
                &|p| Some(p.new_utilisation),
                vec![limit],
            ),
        ],
        spans: Vec::new(),
        mark: None,
        notes: report.findings.clone(),
    }
}
