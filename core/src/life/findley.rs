use libm::{asinh, exp, pow, sinh};

use super::error::LifeError;
use super::zhurkov::GAS_CONSTANT_J_MOL_K;

/// Time at which the strain scale of the law is given, s: one hour.
const REFERENCE_TIME_S: f64 = 3600.0;

/// Creep strain under steady stress: `e = m sinh(S / S_0) (t / (a_T 1 h))^n` (Findley, Lai & Onaran, Creep and Relaxation
/// of Nonlinear Viscoelastic Materials), the elastic strain not counted.
///
/// Heat makes the clock run faster by `1/a_T`, `ln a_T = H/R (1/T - 1/T_ref)`: time-temperature shift with Arrhenius' law,
/// which holds away from the glass transition; across it the true shift is steeper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Findley {
    strain_scale: f64,
    stress_scale_pa: f64,
    time_exponent: f64,
    activation_energy_j_mol: f64,
    reference_temperature_k: f64,
}

/// A stretch of time at steady stress and temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CreepStep {
    /// Stress, Pa; compression negative.
    pub stress_pa: f64,
    /// Temperature, K.
    pub temperature_k: f64,
    /// Duration, s.
    pub seconds: f64,
}

impl Findley {
    /// From m (strain at 1 h where sinh is one), `S_0`, n (0 to 1), H and the temperature at which they hold.
    pub fn new(
        strain_scale: f64,
        stress_scale_pa: f64,
        time_exponent: f64,
        activation_energy_j_mol: f64,
        reference_temperature_k: f64,
    ) -> Result<Self, LifeError> {
        let strain_scale = LifeError::not_negative("creep strain scale", strain_scale)?;
        let stress_scale_pa = LifeError::positive("creep stress scale", stress_scale_pa)?;
        let time_exponent = LifeError::positive("time exponent of creep", time_exponent)?;
        if time_exponent > 1.0 {
            let quantity = "time exponent of creep";
            return Err(LifeError::OutOfRange { quantity, range: "above 0 and up to 1", value: time_exponent });
        }
        let activation_energy_j_mol =
            LifeError::not_negative("activation energy of the time-temperature shift", activation_energy_j_mol)?;
        let reference_temperature_k = LifeError::positive("reference temperature", reference_temperature_k)?;
        Ok(Self { strain_scale, stress_scale_pa, time_exponent, activation_energy_j_mol, reference_temperature_k })
    }

    /// Time-temperature shift `a_T`: 1 at the reference, smaller when warmer.
    pub fn shift(&self, temperature_k: f64) -> Result<f64, LifeError> {
        let temperature = LifeError::positive("temperature", temperature_k)?;
        let inverse = 1.0 / temperature - 1.0 / self.reference_temperature_k;
        Ok(exp(self.activation_energy_j_mol / GAS_CONSTANT_J_MOL_K * inverse))
    }

    /// Creep strain after a time at steady stress and temperature.
    pub fn strain(&self, stress_pa: f64, seconds: f64, temperature_k: f64) -> Result<f64, LifeError> {
        let seconds = LifeError::not_negative("duration", seconds)?;
        Ok(self.size(stress_pa)? * self.growth(seconds / self.shift(temperature_k)?))
    }

    /// Creep strain at the end of a row of steps, by modified superposition (Findley, Lai & Onaran): each change of
    /// stress starts a strain of its own, `sum of (m(S_i) - m(S_i-1)) (reduced time since)^n`.
    pub fn strain_after(&self, steps: &[CreepStep]) -> Result<f64, LifeError> {
        // Backward, so that the reduced time from each step's start to the end is a running sum.
        let (mut reduced, mut strain) = (0.0, 0.0);
        for (index, step) in steps.iter().enumerate().rev() {
            reduced += LifeError::not_negative("duration", step.seconds)? / self.shift(step.temperature_k)?;
            let before = match index.checked_sub(1) {
                Some(earlier) => self.size(steps[earlier].stress_pa)?,
                None => 0.0,
            };
            strain += (self.size(step.stress_pa)? - before) * self.growth(reduced);
        }
        Ok(strain)
    }

    /// The steady stress that creeps as a fast repeating one: `S_0 asinh(mean of sinh(S / S_0))`, Pa.
    ///
    /// Holds where one period is too short for creep to follow; samples at equal time steps.
    pub fn equivalent_stress_pa(&self, period_pa: &[f64]) -> Result<f64, LifeError> {
        if period_pa.is_empty() {
            return Err(LifeError::TooShort { count: 0, least: 1 });
        }
        if let Some(index) = period_pa.iter().position(|stress| !stress.is_finite()) {
            return Err(LifeError::NotFinite { index });
        }
        let sum: f64 = period_pa.iter().map(|stress| sinh(stress / self.stress_scale_pa)).sum();
        Ok(self.stress_scale_pa * asinh(sum / period_pa.len() as f64))
    }

    /// Creep modulus, Pa: stress over elastic and creep strain together, as isochronous curves give it. `modulus_pa` is
    /// Young's modulus at the temperature.
    pub fn creep_modulus_pa(
        &self,
        modulus_pa: f64,
        stress_pa: f64,
        seconds: f64,
        temperature_k: f64,
    ) -> Result<f64, LifeError> {
        let modulus_pa = LifeError::positive("Young's modulus", modulus_pa)?;
        let stress_pa = LifeError::positive("stress", stress_pa)?;
        Ok(stress_pa / (stress_pa / modulus_pa + self.strain(stress_pa, seconds, temperature_k)?))
    }

    fn size(&self, stress_pa: f64) -> Result<f64, LifeError> {
        if !stress_pa.is_finite() {
            return Err(LifeError::NotFinite { index: 0 });
        }
        Ok(self.strain_scale * sinh(stress_pa / self.stress_scale_pa))
    }

    fn growth(&self, reduced_s: f64) -> f64 {
        pow(reduced_s / REFERENCE_TIME_S, self.time_exponent)
    }
}
