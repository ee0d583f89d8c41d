//! The laws of life of one material.

use super::error::LifeError;
use super::findley::Findley;
use super::zhurkov::KineticStrength;
use crate::material::CreepState;

impl KineticStrength {
    /// Rupture law of a material at one temperature (K), through its short-term strength (Pa) there and in the direction
    /// of interest.
    ///
    /// Each temperature has its own activation volume, so that the law meets the retention curve of the card instead of
    /// running past its softening.
    pub fn of_material(creep: &CreepState, strength_pa: f64, temperature_k: f64) -> Result<Self, LifeError> {
        Self::through(creep.attempt_time, creep.activation_energy, strength_pa, creep.short_test, temperature_k)
    }
}

impl Findley {
    /// Creep law of a material in a direction that is `softness` times as compliant as the beads (1 along them: modulus
    /// along the beads over modulus in that direction, at 23 °C).
    ///
    /// The stress scale stays; strain at one stress grows as compliance does.
    pub fn of_material(creep: &CreepState, softness: f64) -> Result<Self, LifeError> {
        let softness = LifeError::positive("softness", softness)?;
        Self::new(
            creep.strain_scale * softness,
            creep.stress_scale,
            creep.time_exponent,
            creep.shift_energy,
            creep.reference_temperature,
        )
    }
}
