//! Strength by direction, and where plastics soften.

use layload_core::material::{Lay, LayerPlane, LayerStrength, MoistureState, library};
use nalgebra::{Matrix3, Vector3};

use super::Rows;
use super::row::{Measure, Row, Source, Word};

pub(super) fn rows() -> Rows {
    let mut pairs = Vec::new();
    for name in library::names() {
        let state = library::card(name)?.at(293.15, MoistureState::Dry);
        let strength = LayerStrength::of(&state, Lay::Wall);
        let (x, y, s) = (state.bead_strength, state.layer_strength, state.layer_shear_strength);
        for degrees in 0..=90 {
            let angle = f64::from(degrees).to_radians();
            // The layers lean by `angle` against the pull.
            let (cosine, sine) = (libm::cos(angle), libm::sin(angle));
            let pull = Vector3::x() * Vector3::x().transpose() * 1e6;
            let used = strength.use_of(&pull, &LayerPlane::new(Vector3::new(sine, 0.0, cosine))).utilisation;
            let (c2, s2) = (cosine * cosine, sine * sine);
            let square = c2 * c2 / (x * x) + (1.0 / (s * s) - 1.0 / (x * x)) * c2 * s2 + s2 * s2 / (y * y);
            pairs.push((1e-6 / square.sqrt(), 1.0 / used));
        }
    }
    let hill = Source { id: "C9", word: Word::ClosedForm, name: "Tsai-Hill, Azzi & Tsai 1965" };
    let mut rows = vec![hill.worst(
        "strength of a bar at 0° to 90° to its layers, every card, worst, MPa",
        pairs.into_iter(),
        1e-9,
        "rounding",
    )];
    rows.push(pressed_weld()?);
    for (id, name, expected, tolerance) in [("C24", "PLA", 60.0, 5.0), ("C25", "PA12-CF15", 160.0, 10.0)] {
        let source = Source { id, word: Word::CommonPractice, name: "trade fact, no source" };
        let got = library::card(name)?.temperature.softening_c.value;
        let row = source.row(format!("softening of {name}, °C"), expected, got, tolerance, "spread of grades, K");
        rows.push(row.by(Measure::Difference));
    }
    Ok(rows)
}

/// A weld at its limit of shear under pressure: Puck's curve `τ² = S² + 2 p S |σ|`, which is what his criterion of the plane
/// becomes where the use is one.
fn pressed_weld() -> Result<Row, Box<dyn std::error::Error>> {
    let puck = Source { id: "C9", word: Word::ClosedForm, name: "Puck, Kopp & Knops 2002 (from memory)" };
    let mut pairs = Vec::new();
    for name in library::names() {
        let state = library::card(name)?.at(293.15, MoistureState::Dry);
        let strength = LayerStrength::of(&state, Lay::Lines);
        let (shear, compression) = (state.layer_shear_strength, state.compression_strength);
        for share in [0.1, 0.3, 0.6, 0.9] {
            let pressure = share * shear;
            let limit = (shear * shear + 2.0 * 0.2 * shear * pressure).sqrt();
            let stress = Matrix3::new(-pressure, limit, 0.0, limit, 0.0, 0.0, 0.0, 0.0, 0.0);
            let used = strength.use_of(&stress, &LayerPlane::new(Vector3::x())).utilisation;
            // The pressure itself is held against the compression strength beside it.
            let pushed = pressure / compression;
            pairs.push((1.0 + pushed * pushed, used * used));
        }
    }
    Ok(puck.worst("shear that a weld bears under pressure, every card, worst, use", pairs, 1e-9, "rounding"))
}
