use libm::pow;

use super::error::LifeError;

/// Cycles at which the line's amplitude is given.
const REFERENCE_CYCLES: f64 = 1e6;

/// Stress-life line `N = 10^6 (S_1e6 / S)^k` of the fully reversed amplitude S (Basquin 1910).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StressLife {
    amplitude_1e6_pa: f64,
    exponent: f64,
}

impl StressLife {
    /// A line through its amplitude at one million cycles with the exponent k, both above zero.
    ///
    /// k is the number of decades of life per decade of stress; the exponent b of the form `S = S_f (2 N)^b` is -1/k.
    pub fn new(amplitude_1e6_pa: f64, exponent: f64) -> Result<Self, LifeError> {
        Ok(Self {
            amplitude_1e6_pa: LifeError::positive("amplitude at a million cycles", amplitude_1e6_pa)?,
            exponent: LifeError::positive("stress-life exponent", exponent)?,
        })
    }

    /// Fully reversed amplitude for a life of one million cycles.
    pub fn amplitude_1e6_pa(&self) -> f64 {
        self.amplitude_1e6_pa
    }

    /// The exponent k.
    pub fn exponent(&self) -> f64 {
        self.exponent
    }

    /// Cycles to failure at a fully reversed amplitude: infinite at zero, 0 for an amplitude that is no number.
    ///
    /// The line has no endurance limit: printed plastics show none that one could rely on.
    pub fn cycles_to_failure(&self, amplitude_pa: f64) -> f64 {
        if amplitude_pa.is_nan() {
            return 0.0;
        }
        REFERENCE_CYCLES * pow(self.amplitude_1e6_pa / amplitude_pa.max(0.0), self.exponent)
    }

    /// Damage of one cycle, the inverse of its life.
    pub fn damage_per_cycle(&self, amplitude_pa: f64) -> f64 {
        1.0 / self.cycles_to_failure(amplitude_pa)
    }

    /// Fully reversed amplitude for a wanted number of cycles, above zero.
    pub fn amplitude_pa(&self, cycles: f64) -> Result<f64, LifeError> {
        let cycles = LifeError::positive("number of cycles", cycles)?;
        Ok(self.amplitude_1e6_pa * pow(REFERENCE_CYCLES / cycles, 1.0 / self.exponent))
    }
}
