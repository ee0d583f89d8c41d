//! Heat takes strength and stiffness, never gives any; softening ends both.

use approx::assert_relative_eq;
use layload_core::material::{MoistureState, library};

#[test]
fn strength_and_stiffness_never_rise_with_temperature() {
    for name in library::names() {
        let card = library::card(name).expect("embedded card");
        let mut before = card.at(233.15, MoistureState::Dry);
        for kelvin in 234..650 {
            let now = card.at(f64::from(kelvin) + 0.15, MoistureState::Dry);
            assert!(now.bead_strength <= before.bead_strength, "{name} at {kelvin} K");
            assert!(now.layer_strength <= before.layer_strength, "{name} at {kelvin} K");
            assert!(now.bead_modulus <= before.bead_modulus, "{name} at {kelvin} K");
            before = now;
        }
    }
}

#[test]
fn above_softening_nothing_is_left_to_build_on() {
    for name in library::names() {
        let card = library::card(name).expect("embedded card");
        let soft = card.at(card.temperature.softening_c.value + 273.15, MoistureState::Dry);
        let cold = card.at(296.15, MoistureState::Dry);
        assert!(soft.softening_margin <= 0.0, "{name}");
        assert!(soft.bead_strength <= 0.06 * cold.bead_strength, "{name}");
    }
}

#[test]
fn curve_is_linear_between_its_points() {
    let card = library::card("PA12-CF15").expect("embedded card");
    let points = &card.temperature.retention.points;
    let (a, b) = (points[1], points[2]);
    let middle = card.temperature.retention.at(f64::midpoint(a.temperature_c, b.temperature_c));
    assert_relative_eq!(middle.0, f64::midpoint(a.strength, b.strength), max_relative = 1e-12);
    assert_relative_eq!(middle.1, f64::midpoint(a.stiffness, b.stiffness), max_relative = 1e-12);
}
