use super::cases::{ENDS, RodField, outward};
use crate::job::EndFits;
use crate::load::PinForce;
use crate::rod::eye_stress::pin_force;
use crate::rod::place::End;
use crate::rod::pressed::Pressed;
use crate::rod::setting::Setting;
use crate::verdict::field::{SolvedBore, States};

/// How much of each case there is at every crank angle; at rest rings still press.
pub(crate) fn states(field: &RodField, setting: &Setting<'_>, fits: &EndFits, moduli: [f64; 2]) -> States {
    let mut rest = vec![0.0; field.solved.count()];
    for (solved, end) in field.bores.iter().zip(ENDS) {
        let ring = Pressed::of(setting.model, setting.scenario, setting.card(), setting.temperatures, end);
        let pressure = ring.and_then(|ring| ring.running().ok()).map_or(0.0, |stress| stress.pressure);
        // Even pressure all round is that of all bands together.
        (0..solved.bands.len()).for_each(|k| rest[solved.first + k] = pressure as f32);
    }
    let steps = setting.stressing.forces.iter().map(|forces| {
        (0..forces.angles())
            .map(|angle| {
                let mut state = rest.clone();
                for end in ENDS {
                    let clearance = end.clearance(fits) * moduli[end as usize] / field.modulus;
                    press(field, end, &pin_force(forces, end, angle), clearance, &mut state);
                }
                state[field.turning] = forces.spin_squared(angle) as f32;
                state[field.turning + 1] = 1.0;
                state
            })
            .collect()
    });
    let steps = steps.collect();
    States { steps, rest }
}

/// Adds what a pin does to its bore. A softer eye is as good as a greater clearance: only their product counts.
fn press(field: &RodField, end: End, pin: &PinForce, clearance: f64, state: &mut [f32]) {
    let solved: &SolvedBore = &field.bores[end as usize];
    let along = pin.along * outward(end).x;
    let pulled_half = field.half[end as usize] && along > 0.0;
    let pressed = if pulled_half { None } else { solved.press(along, clearance) };
    // A half bore is pulled by its cap: its own stress is no one's.
    let pressures = pressed.unwrap_or_else(|| solved.press_by_cosine(along));
    for (k, pressure) in pressures.iter().enumerate() {
        state[solved.first + k] += *pressure as f32;
    }
    state[solved.side] += pin.across as f32;
}
