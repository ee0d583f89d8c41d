use layload_core::report::{SweepPoint, SweepReport};

use crate::plot::{Axis, Band, Chart, Level, Line, Panel, Span};
use crate::text::numbers::duration;

/// Lives shown, hours: shorter ones lie on the lower edge, longer ones on the upper.
pub(super) const LIVES_H: (f64, f64) = (1e-3, 1e4);

/// Life and temperature against speed, with what fails first above.
pub(crate) fn sweep(report: &SweepReport) -> Chart {
    let points = &report.sweep;
    let hours = |seconds: f64| (seconds / 3600.0).clamp(LIVES_H.0, LIVES_H.1);
    let line = |label: &str, dashed: bool, of: &dyn Fn(&SweepPoint) -> Option<f64>| Line {
        label: label.into(),
        points: points.iter().map(|point| (point.rpm, of(point))).collect(),
        dashed,
    };
    let wanted = report.wanted_life_s / 3600.0;
    let lives = points.iter().flat_map(|point| [hours(point.life_b10_s), hours(point.life_b50_s)]);
    let (low, high) = lives
        .chain([wanted.clamp(LIVES_H.0, LIVES_H.1)])
        .fold((LIVES_H.1, LIVES_H.0), |(low, high), h| (f64::min(low, h), f64::max(high, h)));
    let life = Panel {
        up: Axis::powers("life, h", low, high),
        bands: vec![Band {
            points: points.iter().map(|p| (p.rpm, hours(p.life_b10_s), hours(p.life_b50_s))).collect(),
        }],
        lines: vec![
            line("90 % reach it", false, &|point| Some(hours(point.life_b10_s))),
            line("50 % reach it", true, &|point| Some(hours(point.life_b50_s))),
        ],
        levels: vec![Level { value: wanted, label: format!("wanted {wanted:.2} h") }],
        points: Vec::new(),
    };
    let warm = points.iter().filter_map(|point| point.peak_temperature_c);
    let (coldest, hottest) =
        warm.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), c| (f64::min(low, c), f64::max(high, c)));
    let heat = Panel {
        up: if coldest.is_finite() {
            Axis::even("hottest place, °C", (coldest - 5.0).floor(), (hottest + 5.0).ceil())
        } else {
            Axis::even("hottest place, °C", 0.0, 100.0)
        },
        bands: Vec::new(),
        lines: vec![line("temperature", false, &|point| point.peak_temperature_c)],
        levels: Vec::new(),
        points: Vec::new(),
    };
    let ends = |of: fn(&SweepPoint) -> f64| (points.first().map_or(0.0, of), points.last().map_or(1.0, of));
    let (from, to) = ends(|point| point.rpm);
    Chart {
        title: report.title.clone().unwrap_or_else(|| "Life against speed".into()),
        told: told(report),
        across: Axis::even("top speed of the duty, rpm", from, to),
        panels: vec![life, heat],
        spans: spans(points),
        mark: Some((report.duty_rpm, "duty".into())),
        notes: Vec::new(),
    }
}

/// Neighbouring speeds with one mode are one stretch; it changes half-way between two speeds.
fn spans(points: &[SweepPoint]) -> Vec<Span> {
    let mut spans: Vec<Span> = Vec::new();
    for (number, point) in points.iter().enumerate() {
        let from = match number.checked_sub(1) {
            Some(before) => f64::midpoint(points[before].rpm, point.rpm),
            None => point.rpm,
        };
        let to = points.get(number + 1).map_or(point.rpm, |next| f64::midpoint(point.rpm, next.rpm));
        let label = point.governing_mode.words();
        match spans.last_mut().filter(|last| last.label == label) {
            Some(last) => last.to = to,
            None => spans.push(Span { from, to, label: label.into() }),
        }
    }
    spans
}

fn told(report: &SweepReport) -> String {
    let (Some(first), Some(last)) = (report.sweep.first(), report.sweep.last()) else { return String::new() };
    format!(
        "Life that 90 % of parts reach against the top speed of the duty: {} at {:.0} rpm, {} at {:.0} rpm; wanted {}. What \
         fails first at the highest speed: {}.",
        duration(first.life_b10_s),
        first.rpm,
        duration(last.life_b10_s),
        last.rpm,
        duration(report.wanted_life_s),
        last.governing_mode.words()
    )
}
