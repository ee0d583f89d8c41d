use libm::{exp, expm1, log1p};

use super::error::LifeError;

/// Molar gas constant, J/(mol K): exact since the 2019 SI, Avogadro's number times Boltzmann's constant.
pub const GAS_CONSTANT_J_MOL_K: f64 = 8.314_462_618_153_24;

/// Rupture under a load that lasts: `t = t_0 exp((U_0 - g S) / (R T))` (Zhurkov 1965, Int. J. Fracture Mech. 1, 311).
///
/// Molar quantities are used, so the law's k T becomes R T. Compression (S below 0) counts as no stress: it neither
/// helps nor harms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KineticStrength {
    attempt_time_s: f64,
    activation_energy_j_mol: f64,
    activation_volume_m3_mol: f64,
}

impl KineticStrength {
    /// From `t_0` (of the order of 1e-13 s, an atom's vibration), `U_0` and g, all above zero.
    pub fn new(
        attempt_time_s: f64,
        activation_energy_j_mol: f64,
        activation_volume_m3_mol: f64,
    ) -> Result<Self, LifeError> {
        Ok(Self {
            attempt_time_s: LifeError::positive("attempt time", attempt_time_s)?,
            activation_energy_j_mol: LifeError::positive("activation energy", activation_energy_j_mol)?,
            activation_volume_m3_mol: LifeError::positive("activation volume", activation_volume_m3_mol)?,
        })
    }

    /// The law through one known point: the stress that breaks in a known time at a known temperature, for example
    /// the strength of a short test. Fixes g from `t_0` and `U_0`.
    ///
    /// Refused when `U_0` is too small for the part to last that long even without stress.
    pub fn through(
        attempt_time_s: f64,
        activation_energy_j_mol: f64,
        stress_pa: f64,
        time_s: f64,
        temperature_k: f64,
    ) -> Result<Self, LifeError> {
        let attempt_time_s = LifeError::positive("attempt time", attempt_time_s)?;
        let activation_energy_j_mol = LifeError::positive("activation energy", activation_energy_j_mol)?;
        let stress_pa = LifeError::positive("breaking stress", stress_pa)?;
        let time_s = LifeError::positive("time to failure", time_s)?;
        let temperature_k = LifeError::positive("temperature", temperature_k)?;
        let spent = GAS_CONSTANT_J_MOL_K * temperature_k * libm::log(time_s / attempt_time_s);
        Self::new(attempt_time_s, activation_energy_j_mol, (activation_energy_j_mol - spent) / stress_pa)
    }

    /// The attempt time `t_0`.
    pub fn attempt_time_s(&self) -> f64 {
        self.attempt_time_s
    }

    /// The activation energy `U_0`.
    pub fn activation_energy_j_mol(&self) -> f64 {
        self.activation_energy_j_mol
    }

    /// The activation volume g.
    pub fn activation_volume_m3_mol(&self) -> f64 {
        self.activation_volume_m3_mol
    }

    /// Time to failure at a steady stress.
    pub fn time_to_failure_s(&self, stress_pa: f64, temperature_k: f64) -> Result<f64, LifeError> {
        Ok(1.0 / self.damage_rate_per_s(stress_pa, temperature_k)?)
    }

    /// Damage a second at a steady stress: the inverse of the time to failure.
    pub fn damage_rate_per_s(&self, stress_pa: f64, temperature_k: f64) -> Result<f64, LifeError> {
        if !stress_pa.is_finite() {
            return Err(LifeError::NotFinite { index: 0 });
        }
        Ok(self.at(temperature_k)?.rate(stress_pa))
    }

    /// Damage a second, on average, of a stress that repeats: Bailey's integral (Bailey 1939) of the inverse time to
    /// failure over one period, divided by the period.
    ///
    /// `period_pa` is sampled at equal time steps, the last sample followed by the first; stress is linear between
    /// samples and the integral of that is exact.
    pub fn mean_damage_rate_per_s(&self, period_pa: &[f64], temperature_k: f64) -> Result<f64, LifeError> {
        let law = self.at(temperature_k)?;
        check(period_pa, 1)?;
        let mut sum = 0.0;
        for (index, &from) in period_pa.iter().enumerate() {
            sum += law.mean_rate(from, period_pa[(index + 1) % period_pa.len()]);
        }
        Ok(sum / period_pa.len() as f64)
    }

    /// Damage of a stress history sampled at equal time steps, from the first sample to the last.
    pub fn damage_of_history(&self, history_pa: &[f64], step_s: f64, temperature_k: f64) -> Result<f64, LifeError> {
        let law = self.at(temperature_k)?;
        let step_s = LifeError::positive("time step", step_s)?;
        check(history_pa, 2)?;
        Ok(history_pa.windows(2).map(|ends| law.mean_rate(ends[0], ends[1]) * step_s).sum())
    }

    /// When a stress history sampled at equal time steps breaks the part, from the first sample on; `None` if it
    /// outlives the history.
    pub fn failure_time_s(
        &self,
        history_pa: &[f64],
        step_s: f64,
        temperature_k: f64,
    ) -> Result<Option<f64>, LifeError> {
        let law = self.at(temperature_k)?;
        let step_s = LifeError::positive("time step", step_s)?;
        check(history_pa, 2)?;
        let mut damage = 0.0;
        for (index, ends) in history_pa.windows(2).enumerate() {
            let more = law.mean_rate(ends[0], ends[1]) * step_s;
            if damage + more >= 1.0 {
                let part = law.part_of_step(ends[0], ends[1], (1.0 - damage) / step_s);
                return Ok(Some((index as f64 + part) * step_s));
            }
            damage += more;
        }
        Ok(None)
    }

    /// Logarithm of the damage a second without stress, and its growth with stress, 1/Pa.
    pub fn exponents(&self, temperature_k: f64) -> Result<(f64, f64), LifeError> {
        let law = self.at(temperature_k)?;
        Ok((-law.barrier - libm::log(law.attempt_time_s), law.per_pa))
    }

    fn at(&self, temperature_k: f64) -> Result<AtTemperature, LifeError> {
        let thermal = GAS_CONSTANT_J_MOL_K * LifeError::positive("temperature", temperature_k)?;
        Ok(AtTemperature {
            attempt_time_s: self.attempt_time_s,
            barrier: self.activation_energy_j_mol / thermal,
            per_pa: self.activation_volume_m3_mol / thermal,
        })
    }
}

fn check(history_pa: &[f64], least: usize) -> Result<(), LifeError> {
    if history_pa.len() < least {
        return Err(LifeError::TooShort { count: history_pa.len(), least });
    }
    match history_pa.iter().position(|stress| !stress.is_finite()) {
        Some(index) => Err(LifeError::NotFinite { index }),
        None => Ok(()),
    }
}

/// The law at one temperature: `rate = exp(-barrier + per_pa S) / t_0` with S not below 0.
struct AtTemperature {
    attempt_time_s: f64,
    barrier: f64,
    per_pa: f64,
}

impl AtTemperature {
    fn rate(&self, stress_pa: f64) -> f64 {
        exp(self.per_pa * stress_pa.max(0.0) - self.barrier) / self.attempt_time_s
    }

    /// Mean rate while the stress runs linearly from one value to another.
    fn mean_rate(&self, from_pa: f64, to_pa: f64) -> f64 {
        let (low, high) = if from_pa < to_pa { (from_pa, to_pa) } else { (to_pa, from_pa) };
        if low < 0.0 && high > 0.0 {
            // Part of the way in compression, at the rate of no stress.
            let tension_share = high / (high - low);
            return tension_share * self.mean_rate(0.0, high) + (1.0 - tension_share) * self.rate(0.0);
        }
        // Integrated downward from the higher end, so that the exponential cannot overflow before the rate does.
        let drop = self.per_pa * (high.max(0.0) - low.max(0.0));
        let top = self.rate(high);
        if drop == 0.0 { top } else { top * (-expm1(-drop) / drop) }
    }

    /// Part of a step, 0 to 1, after which the rate has summed to `wanted` (damage over the step's length).
    fn part_of_step(&self, from_pa: f64, to_pa: f64, wanted: f64) -> f64 {
        if from_pa.min(to_pa) < 0.0 && from_pa.max(to_pa) > 0.0 {
            let crossing = from_pa / (from_pa - to_pa);
            let before = crossing * self.mean_rate(from_pa, 0.0);
            return if wanted <= before {
                crossing * self.part_of_step(from_pa, 0.0, wanted / crossing)
            } else {
                let rest = 1.0 - crossing;
                crossing + rest * self.part_of_step(0.0, to_pa, (wanted - before) / rest)
            };
        }
        let rise = self.per_pa * (to_pa.max(0.0) - from_pa.max(0.0));
        let share = wanted / self.rate(from_pa);
        // Integral of exp(rise x) from 0 to the part, set equal to the share, solved for the part.
        let part = if rise == 0.0 { share } else { log1p(rise * share) / rise };
        if part.is_nan() { 1.0 } else { part.clamp(0.0, 1.0) }
    }
}
