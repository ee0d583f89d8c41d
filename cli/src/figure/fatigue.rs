use layload_core::material::{Card, FatigueTest};

use crate::plot::{Axis, Band, Chart, Line, Panel, Point};

/// Cycles shown, as powers of ten.
const CYCLES: (i32, i32) = (3, 9);

/// Standard deviations that hold 80 % of a normal distribution: nine in ten above the lower one.
const NINE_IN_TEN: f64 = 1.281_551_565_544_6;

/// Stress-life lines of a card with their scatter, and what published tests found.
pub(crate) fn fatigue(card: &Card) -> Chart {
    let values = &card.fatigue;
    let lives: Vec<f64> =
        (0..=60).map(|k| 10_f64.powf(f64::from(CYCLES.0) + f64::from((CYCLES.1 - CYCLES.0) * k) / 60.0)).collect();
    let at = |ratio: f64, exponent: f64, cycles: f64| ratio * (1e6 / cycles).powf(1.0 / exponent);
    let (ratio, exponent) = (values.ratio_1e6.value, values.exponent.value);
    let layer = (values.layer_ratio_1e6.value, values.layer_exponent.value);
    let deviation = values.scatter_log10.value.hypot(exponent * card.strength.scatter_log10.value);
    let spread = 10_f64.powf(NINE_IN_TEN * deviation);
    let line = |label: &str, dashed: bool, (ratio, exponent): (f64, f64)| Line {
        label: label.into(),
        points: lives.iter().map(|&cycles| (cycles, Some(at(ratio, exponent, cycles)))).collect(),
        dashed,
    };
    let tests: Vec<f64> =
        values.tests.iter().map(|test| test.reversed_over_strength(values.walker_exponent.value)).collect();
    let first = 10_f64.powi(CYCLES.0);
    let top = tests.iter().copied().fold(at(ratio, exponent, first / spread), f64::max);
    let panel = Panel {
        up: Axis::even("amplitude over tensile strength, fully reversed", 0.0, (top * 10.0).ceil() / 10.0),
        bands: vec![Band {
            points: lives
                .iter()
                .map(|&n| (n, at(ratio, exponent, n * spread), at(ratio, exponent, n / spread)))
                .collect(),
        }],
        lines: vec![
            line("in the layer plane, half break", false, (ratio, exponent)),
            line("across layers, over the layer strength", true, layer),
        ],
        levels: Vec::new(),
        points: values
            .tests
            .iter()
            .zip(&tests)
            .enumerate()
            .map(|(number, (test, &amplitude))| Point {
                place: (test.cycles, amplitude),
                label: (number + 1).to_string(),
            })
            .collect(),
    };
    Chart {
        title: format!("{}: fatigue at 23 °C", card.name),
        told: format!(
            "Stress-life line of {}: amplitude {ratio:.3} of the strength at a million cycles, exponent {exponent:.1}, with a \
             band from 10 % to 90 %; {} published tests beside it.",
            card.name,
            values.tests.len()
        ),
        across: Axis::powers("cycles", first, 10_f64.powi(CYCLES.1)),
        panels: vec![panel],
        spans: Vec::new(),
        mark: None,
        notes: notes(card),
    }
}

fn notes(card: &Card) -> Vec<String> {
    let values = &card.fatigue;
    let mut notes = vec![format!(
        "Band: 10 % to 90 %, scatter of life and strength together. Line: {}; exponent: {}.",
        values.ratio_1e6.source.word(),
        values.exponent.source.word()
    )];
    if values.tests.is_empty() {
        notes.push("No published test data of this family available: the line is not compared with any.".into());
    }
    notes.extend(values.tests.iter().enumerate().map(|(number, test)| described(number + 1, test)));
    if !values.tests.is_empty() {
        notes.push(format!(
            "Tests are moved to zero mean stress by Walker's rule with the card's exponent, {:.2}.",
            values.walker_exponent.value
        ));
    }
    notes
}

fn described(number: usize, test: &FatigueTest) -> String {
    let frequency = test.frequency_hz.map_or_else(String::new, |hertz| format!(", {hertz:.0} Hz"));
    format!(
        "{number}: {}; {:.1} of {:.1} MPa at load ratio {:.2}{frequency}, {:.0} °C, {:.0} % survive. {}.",
        test.specimens,
        test.maximum_mpa,
        test.strength_mpa,
        test.stress_ratio,
        test.temperature_c,
        test.survival * 100.0,
        test.reference
    )
}
