//! Any text as a material card: what is accepted has working laws at every temperature.
#![no_main]

use layload_core::life::{Findley, KineticStrength};
use layload_core::material::{Card, Lay, LayerPlane, LayerStrength, MoistureState};
use libfuzzer_sys::fuzz_target;
use nalgebra::{Matrix3, Vector3};

fuzz_target!(|text: &str| {
    let Ok(card) = Card::from_toml(text) else { return };
    for kelvin in [200.0, 296.15, 350.0, 420.0, 900.0] {
        for moisture in [MoistureState::Dry, MoistureState::Conditioned] {
            let state = card.at(kelvin, moisture);
            assert!(state.bead_strength.is_finite() && state.bead_strength >= 0.0);
            assert!(state.in_plane_modulus().is_finite());
            let strength = LayerStrength::of(&state, Lay::Lines);
            let used = strength.use_of(&Matrix3::from_element(1e6), &LayerPlane::new(Vector3::z()));
            assert!(!used.utilisation.is_nan() && (0.0..=1.0).contains(&used.layer_share));
            let _ = KineticStrength::of_material(&card.creep.in_si(), state.bead_strength, kelvin)
                .and_then(|law| law.time_to_failure_s(1e6, kelvin));
            let _ = Findley::of_material(&card.creep.in_si(), 2.0).and_then(|law| law.strain(1e6, 3600.0, kelvin));
        }
    }
});
