//! Rings pressed into the eyes, and what the rod's stretch leaves of the gap to the head.

use super::build::Parts;
use super::pins::PinForces;
use crate::job::Rating;
use crate::life::RodStretch;
use crate::material::REFERENCE_TEMPERATURE;
use crate::report::{CapReport, ClearanceReport, FitReport, PreloadReport, RatingReport};
use crate::rod::clamped::Clamped;
use crate::rod::place::End;
use crate::rod::pressed::Pressed;
use crate::rod::rolling::rolling_life;
use crate::units::{MM, MPA, ZERO_C};

/// How far beyond the wanted life the grip is followed.
const BEYOND: f64 = 100.0;

pub(crate) fn clearance(stretch: &RodStretch, given: Option<f64>) -> ClearanceReport {
    ClearanceReport {
        elastic_mm: stretch.elastic * MM,
        creep_mm: stretch.creep * MM,
        thermal_mm: stretch.thermal * MM,
        given_mm: given.map(|gap| gap * MM),
        remaining_mm: given.map(|gap| stretch.remaining_clearance(gap, 0.0) * MM),
    }
}

pub(crate) fn fit(parts: &Parts<'_>, end: End) -> Option<FitReport> {
    let scenario = &parts.prepared.scenario;
    let pressed = Pressed::of(parts.model, scenario, &scenario.card, parts.temperatures, end)?;
    let greatest = PinForces::of(parts, end).greatest;
    let assembled = pressed.assembled();
    let cold = scenario.card.at(REFERENCE_TEMPERATURE, scenario.moisture);
    // Hoop tension meets the beads at every angle round the bore.
    let strength = cold.bead_strength.min(cold.across_strength);
    let grip = pressed.grip_lasts(greatest, BEYOND * scenario.wanted_life);
    Some(FitReport {
        role: if end == End::Small { "small-end" } else { "big-end" }.into(),
        ring: pressed.ring.name.clone(),
        interference_least_mm: 2.0 * pressed.interference.0 * MM,
        interference_most_mm: 2.0 * pressed.interference.1 * MM,
        hoop_assembled_mpa: assembled.eye_hoop * MPA,
        utilisation_assembled: assembled.eye_hoop / strength,
        hoop_running_mpa: pressed.running().unwrap_or_default().eye_hoop * MPA,
        pressure_left_mpa: pressed.pressure_after(scenario.wanted_life).unwrap_or(0.0) * MPA,
        pressure_needed_mpa: pressed.needed(greatest) * MPA,
        grip_lasts_s: grip.unwrap_or(Some(0.0)),
        loose_at_c: pressed.loose_at().map(|kelvin| kelvin - ZERO_C),
        rating: rating(parts, end, pressed.ring.rating.as_ref()),
    })
}

fn rating(parts: &Parts<'_>, end: End, rating: Option<&Rating>) -> Option<RatingReport> {
    let rating = rating?;
    let life = rolling_life(parts.loading, &parts.prepared.crank, rating, end).ok()?;
    Some(RatingReport {
        rolling: rating.element,
        dynamic_rating_n: rating.dynamic_load,
        equivalent_load_n: life.equivalent_load,
        life_turns: life.turns,
        life_s: life.seconds,
        swings: end == End::Small,
    })
}

/// Hours at which the preload of a cap is told.
const HOURS: [f64; 6] = [0.01, 0.1, 1.0, 10.0, 100.0, 1000.0];

pub(crate) fn cap(parts: &Parts<'_>, end: End) -> Option<CapReport> {
    let scenario = &parts.prepared.scenario;
    let clamped = Clamped::of(parts.model, scenario, &scenario.card, parts.temperatures, end)?;
    let cold = scenario.card.at(REFERENCE_TEMPERATURE, scenario.moisture);
    let assembled = clamped.assembled();
    let after = |seconds: f64| clamped.after(seconds).unwrap_or(0.0);
    Some(CapReport {
        role: if end == End::Small { "small-end" } else { "big-end" }.into(),
        studs: clamped.cap.name.clone(),
        preload_n: assembled,
        stud_stress_mpa: clamped.stud_stress() * MPA,
        squeeze_mpa: clamped.squeeze() * MPA,
        utilisation_assembled: clamped.squeeze() / cold.compression_strength,
        preload_warm_n: after(0.0),
        preload_left_n: after(scenario.wanted_life),
        joint_pull_n: parts.joint_pulls[end as usize],
        opens_after_s: clamped
            .opens(parts.joint_pulls[end as usize], BEYOND * scenario.wanted_life)
            .unwrap_or(Some(0.0)),
        fading: HOURS
            .iter()
            .map(|&hours| {
                let preload = after(hours * 3600.0);
                PreloadReport { hours, preload_n: preload, lost: 1.0 - preload / assembled }
            })
            .collect(),
    })
}
