//! Heat and creep of the embedded cards.

use approx::assert_relative_eq;
use layload_core::life::{Findley, KineticStrength};
use layload_core::material::{Card, MoistureState, library};

use super::Tested;

#[test]
fn every_card_has_working_laws() -> Tested {
    for name in library::names() {
        let card = library::card(name)?;
        for celsius in [-20.0, 23.0, card.temperature.softening_c.value - 1.0] {
            let kelvin = celsius + 273.15;
            let state = card.at(kelvin, MoistureState::Conditioned);
            let law = KineticStrength::of_material(&card.creep.in_si(), state.bead_strength, kelvin)?;
            // At the short-term strength the law gives the time of the short-term test.
            assert_relative_eq!(law.time_to_failure_s(state.bead_strength, kelvin)?, 100.0, max_relative = 1e-9);
            // Half the strength lasts longer by three to twelve decades (creep rupture of plastics, common practice: some
            // 4 to 12 % of strength a decade at room temperature, more when hot).
            let decades = libm::log10(law.time_to_failure_s(0.5 * state.bead_strength, kelvin)? / 100.0);
            assert!((2.0..16.0).contains(&decades), "{name} at {celsius} °C: {decades}");
            let creep = Findley::of_material(&card.creep.in_si(), 1.0)?;
            let strain = creep.strain(0.2 * state.bead_strength, 3600.0, kelvin)?;
            assert!(strain > 0.0 && strain < 0.05, "{name} at {celsius} °C: {strain}");
            let softer =
                Findley::of_material(&card.creep.in_si(), 2.5)?.strain(0.2 * state.bead_strength, 3600.0, kelvin)?;
            assert_relative_eq!(softer, 2.5 * strain, max_relative = 1e-12);
        }
    }
    Ok(())
}

#[test]
fn upright_conducts_less_and_grows_more() -> Tested {
    for name in library::names() {
        let state = library::card(name)?.at(296.15, MoistureState::Dry);
        assert!(state.conductivity_along(0.0) > state.conductivity_along(1.0), "{name}");
        assert!(state.expansion_along(1.0) > state.expansion_along(0.0), "{name}");
        assert!(state.volumetric_heat() > 1e6 && state.volumetric_heat() < 3e6, "{name}");
        assert!(state.in_plane_expansion() >= state.bead_expansion, "{name}");
    }
    Ok(())
}

#[test]
fn loss_curve() -> Tested {
    let card = library::card("PLA")?;
    let curve = &card.thermal.loss_factor;
    for point in &curve.points {
        assert_relative_eq!(curve.at(point.temperature_c), point.loss_factor);
    }
    assert_relative_eq!(curve.at(45.0), 0.045, max_relative = 1e-12);
    assert_relative_eq!(curve.at(-100.0), curve.points[0].loss_factor);
    assert_relative_eq!(curve.at(500.0), curve.points[curve.points.len() - 1].loss_factor);
    Ok(())
}

#[test]
fn impossible_cards_are_refused() -> Tested {
    let text = library::card_text("PLA")?;
    for (from, to) in [
        ("loss_factor = 0.06 }", "loss_factor = 0.0 }"),
        ("loss_factor = 0.06 }", "loss_factor = 60.0 }"),
        ("{ temperature_c = 55.0, loss_factor", "{ temperature_c = 45.0, loss_factor"),
        ("time_exponent = { value = 0.22", "time_exponent = { value = 1.22"),
        ("activation_energy_kj_mol = { value = ", "activation_energy_kj_mol = { value = -"),
    ] {
        assert!(text.contains(from), "{from}");
        assert!(Card::from_toml(&text.replacen(from, to, 1)).is_err(), "{to}");
    }
    Ok(())
}
