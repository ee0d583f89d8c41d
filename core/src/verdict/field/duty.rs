use super::cases::{RodField, SolvedBore};
use crate::job::EndFits;
use crate::load::PinForce;
use crate::verdict::eye_stress::pin_force;
use crate::verdict::pressed::Pressed;
use crate::verdict::setting::Setting;

/// How much of each case there is at every crank angle.
#[derive(Debug, Clone)]
pub(super) struct FieldDuty {
    /// `[step][crank angle][case]`.
    pub(super) steps: Vec<Vec<Vec<f32>>>,
    /// When the engine stands: rings still press.
    pub(super) rest: Vec<f32>,
}

impl FieldDuty {
    pub(super) fn new(field: &RodField, setting: &Setting<'_>, fits: &EndFits, moduli: [f64; 2]) -> Self {
        let mut rest = vec![0.0; field.count()];
        for solved in &field.bores {
            let end = solved.bore.end;
            let ring = Pressed::of(setting.model, setting.scenario, setting.card(), setting.temperatures, end);
            let pressure = ring.and_then(|ring| ring.running().ok()).map_or(0.0, |stress| stress.pressure);
            // Even pressure all round is that of all bands together.
            (0..solved.bands.len()).for_each(|k| rest[solved.first + k] = pressure as f32);
        }
        let steps = setting.stressing.forces.iter().map(|forces| {
            (0..forces.angles())
                .map(|angle| {
                    let mut state = rest.clone();
                    for (solved, modulus) in field.bores.iter().zip(moduli) {
                        let clearance = solved.bore.end.clearance(fits) * modulus / field.modulus;
                        press(solved, &pin_force(forces, solved.bore.end, angle), clearance, &mut state);
                    }
                    state[field.turning] = forces.spin_squared(angle) as f32;
                    state[field.turning + 1] = 1.0;
                    state
                })
                .collect()
        });
        let steps = steps.collect();
        Self { steps, rest }
    }
}

/// Adds what a pin does to its bore. A softer eye is as good as a greater clearance: only their product counts.
fn press(solved: &SolvedBore, pin: &PinForce, clearance: f64, state: &mut [f32]) {
    let outward = solved.bore.outward();
    let along = pin.along * outward.x;
    let pulled_half = solved.bore.half && along > 0.0;
    let pressed = if pulled_half { None } else { solved.compliance.press(along, clearance) };
    // A half bore is pulled by its cap: the force goes in as the cosine of the angle, and its own stress is no one's.
    let pressures = pressed.unwrap_or_else(|| {
        let f = &solved.compliance.outward;
        let reach: f64 = f.iter().zip(&solved.compliance.areas).map(|(f, area)| f * f / area).sum();
        f.iter().zip(&solved.compliance.areas).map(|(f, area)| along * f / area / reach).collect()
    });
    for (k, pressure) in pressures.iter().enumerate() {
        state[solved.first + k] += *pressure as f32;
    }
    state[solved.side] += pin.across as f32;
}
