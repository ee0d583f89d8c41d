use layload_core::report::{CouponReport, FitLineReport};

use crate::plot::{Axis, Band, Chart, Line, Panel, Point};

/// A fitted line with its band, and the tests it goes through.
pub(crate) fn fit(report: &CouponReport, line: &FitLineReport) -> Chart {
    let tests = || line.failed.iter().chain(&line.run_outs);
    let lives = tests().map(|test| test[1]).chain(line.line.iter().flat_map(|p| [p.low, p.high]));
    let (short, long) = lives.filter(|l| l.is_finite() && *l > 0.0).fold((f64::INFINITY, 0.0), span);
    let stresses = tests().map(|test| test[0]).fold((f64::INFINITY, 0.0), span);
    let room = 0.15 * (stresses.1 - stresses.0).max(0.1 * stresses.1);
    let marked = |list: &[[f64; 2]], label: &str| -> Vec<Point> {
        list.iter().map(|test| Point { place: (test[1], test[0]), label: label.into() }).collect()
    };
    let mut points = marked(&line.failed, "");
    points.extend(marked(&line.run_outs, "→"));
    // Life runs along the axis, as the trade draws it; the line's points rise in life when taken backward.
    let along = |of: &dyn Fn(&layload_core::report::FitPointReport) -> f64| -> Vec<(f64, Option<f64>)> {
        line.line.iter().rev().map(|p| (of(p), Some(p.stress))).collect()
    };
    let band = line
        .line
        .iter()
        .rev()
        .map(|p| (p.life, stress_at(line, p.life, |q| q.low), stress_at(line, p.life, |q| q.high)));
    Chart {
        title: format!("{}: {}", report.card, line.name),
        told: format!(
            "Line through {} failed tests and {} run-outs, with the 90 % band of the whole line.",
            line.failed.len(),
            line.run_outs.len()
        ),
        across: Axis::powers(&line.life_unit, short, long),
        panels: vec![Panel {
            up: Axis::even(
                &line.stress_unit,
                (round_down(stresses.0 - room)).max(0.0),
                -round_down(-stresses.1 - room),
            ),
            lines: vec![
                Line { label: "50 % fail".into(), points: along(&|p| p.life), dashed: false },
                Line { label: "90 % reach it".into(), points: along(&|p| p.nine_in_ten), dashed: true },
            ],
            bands: vec![Band { points: band.collect() }],
            levels: Vec::new(),
            points,
        }],
        spans: Vec::new(),
        mark: None,
        notes: vec![format!(
            "Band: holds the whole line in nine of ten such test series. An arrow marks a run-out. Scatter about the line: \
                 {:.3} in the {} logarithm.",
            line.deviation,
            if line.life_unit == "cycles" { "decimal" } else { "natural" }
        )],
    }
}

/// Down to two digits, so that the ends of an axis read well.
fn round_down(value: f64) -> f64 {
    let step = 10_f64.powf(value.abs().max(1e-9).log10().floor() - 1.0);
    (value / step).floor() * step
}

fn span((low, high): (f64, f64), value: f64) -> (f64, f64) {
    (low.min(value), high.max(value))
}

/// Stress at which one edge of the band has a life, held at the ends of the tests.
fn stress_at(line: &FitLineReport, life: f64, of: impl Fn(&layload_core::report::FitPointReport) -> f64) -> f64 {
    let points = &line.line;
    let crossing = points.windows(2).find(|pair| of(&pair[0]) >= life && of(&pair[1]) <= life);
    match (crossing, points.first(), points.last()) {
        (Some(pair), ..) => {
            let (a, b) = (of(&pair[0]).ln(), of(&pair[1]).ln());
            let share = if a > b { (a - life.ln()) / (a - b) } else { 0.0 };
            pair[0].stress + share * (pair[1].stress - pair[0].stress)
        }
        (None, Some(first), Some(last)) => {
            if of(first) < life {
                first.stress
            } else {
                last.stress
            }
        }
        _ => 0.0,
    }
}
