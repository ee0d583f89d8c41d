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
fn crossed_beads_are_as_stiff_as_both_ways_in_the_mean() {
    for name in library::names() {
        let state = library::card(name).expect("embedded card").at(333.15, MoistureState::Conditioned);
        // Lines along and across in turn share one stretch: the mean of both moduli (Voigt).
        let mean = f64::midpoint(state.bead_modulus, state.across_modulus);
        assert_relative_eq!(state.in_plane_modulus(), mean, max_relative = 1e-12);
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
fn curve_is_linear_between_its_points_and_taken_to_its_power() {
    let card = library::card("PA12-CF15").expect("embedded card");
    let retention = &card.temperature.retention;
    let (a, b) = (retention.points[1], retention.points[2]);
    let middle = retention.at(f64::midpoint(a.temperature_c, b.temperature_c));
    let power = |value: &Option<layload_core::material::Value>| value.as_ref().expect("a power").value;
    let (strength, stiffness) = (power(&retention.strength_power), power(&retention.stiffness_power));
    assert_relative_eq!(middle.0, libm::pow(f64::midpoint(a.strength, b.strength), strength), max_relative = 1e-12);
    assert_relative_eq!(middle.1, libm::pow(f64::midpoint(a.stiffness, b.stiffness), stiffness), max_relative = 1e-12);
    // Without powers it is the curve itself.
    let plain = layload_core::material::Retention { strength_power: None, stiffness_power: None, ..retention.clone() };
    assert_relative_eq!(plain.at(a.temperature_c).0, a.strength, max_relative = 1e-12);
    assert_relative_eq!(
        plain.at(f64::midpoint(a.temperature_c, b.temperature_c)).0,
        f64::midpoint(a.strength, b.strength)
    );
}
