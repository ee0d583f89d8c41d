use layload_core::report::{CandidateReport, SizeReport};

use crate::plot::{Axis, Chart, Level, Panel, Point};

/// Lives shown, hours: shorter ones lie on the lower edge, longer ones on the upper.
const LIVES_H: (f64, f64) = (1e-3, 1e4);

/// Mass against life of all candidates, those that none beats numbered and joined.
pub(crate) fn size(report: &SizeReport) -> Chart {
    let hours = |c: &CandidateReport| (c.life_b10_s / 3600.0).clamp(LIVES_H.0, LIVES_H.1);
    let mut best: Vec<&CandidateReport> = report.candidates.iter().filter(|c| c.pareto).collect();
    best.sort_by(|a, b| a.mass_g.total_cmp(&b.mass_g));
    let rest = report.candidates.iter().filter(|c| !c.pareto);
    let wanted = report.wanted_life_s / 3600.0;
    let lives = report.candidates.iter().map(hours).chain([wanted]);
    let (low, high) = lives.fold((LIVES_H.1, LIVES_H.0), |(l, h), x| (f64::min(l, x), f64::max(h, x)));
    let masses = report.candidates.iter().map(|c| c.mass_g);
    let (light, heavy) = masses.fold((f64::INFINITY, 0.0), |(l, h), x| (f64::min(l, x), f64::max(h, x)));
    let point = |c: &CandidateReport, label: String| Point { place: (c.mass_g, hours(c)), label };
    let mut points: Vec<Point> = rest.map(|c| point(c, String::new())).collect();
    points.extend(best.iter().enumerate().map(|(k, c)| point(c, (k + 1).to_string())));
    let quick = |c: &CandidateReport| c.print_time_s / 3600.0;
    let slowest = report.candidates.iter().map(quick).fold(0.0, f64::max);
    let of_time: Vec<Point> = best
        .iter()
        .enumerate()
        .map(|(k, c)| Point { place: (c.mass_g, quick(c)), label: (k + 1).to_string() })
        .collect();
    let notes = best.iter().enumerate().map(|(k, c)| {
        let varied = c.varied.map_or("present mesh", layload_core::report::Varied::words);
        let size = match (c.thickness_mm, c.crown_mm) {
            (Some([s, m, b]), _) => format!("{s:.1}, {m:.1}, {b:.1} mm"),
            (_, Some(crown)) => format!("{crown:.2} mm"),
            _ => String::new(),
        };
        format!("{}: {varied}, {}, {}, {} walls; {size}.", k + 1, c.material, c.direction, c.walls)
    });
    Chart {
        title: format!("What reaches {:.0} rpm for {wanted:.2} h", report.wanted_rpm),
        told: report.answer.clone(),
        across: Axis::even("mass, g", (light - 1.0).floor(), (heavy + 1.0).ceil()),
        panels: vec![
            Panel {
                up: Axis::powers("B10 life, h", low, high),
                lines: Vec::new(),
                bands: Vec::new(),
                levels: vec![Level { value: wanted, label: format!("wanted {wanted:.2} h") }],
                points,
            },
            Panel {
                up: Axis::even("print time, h", 0.0, 1.1 * slowest),
                lines: Vec::new(),
                bands: Vec::new(),
                levels: Vec::new(),
                points: of_time,
            },
        ],
        spans: Vec::new(),
        mark: None,
        notes: notes.collect(),
    }
}
