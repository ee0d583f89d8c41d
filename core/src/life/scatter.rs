use libm::{log10, pow};

use super::error::LifeError;
use super::normal::{normal_probability, normal_quantile};

/// A life whose logarithm is normally distributed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LogNormalLife {
    median: f64,
    deviation_log10: f64,
}

impl LogNormalLife {
    /// From the median (B50, in any unit of life) and the standard deviation of log10 life.
    ///
    /// The median may be 0 (broken at once) or infinite (no damage at all); both then hold for every fraction.
    pub fn new(median: f64, deviation_log10: f64) -> Result<Self, LifeError> {
        if median.is_nan() || median < 0.0 {
            return Err(LifeError::OutOfRange { quantity: "median life", range: "a number from 0", value: median });
        }
        Ok(Self { median, deviation_log10: LifeError::not_negative("deviation of log10 life", deviation_log10)? })
    }

    /// B50.
    pub fn median(&self) -> f64 {
        self.median
    }

    /// Standard deviation of log10 life.
    pub fn deviation_log10(&self) -> f64 {
        self.deviation_log10
    }

    /// Life by which a fraction, strictly between 0 and 1, has failed: B50 times 10^(z s), z the normal quantile.
    pub fn life_at(&self, failed_fraction: f64) -> Result<f64, LifeError> {
        let quantile = normal_quantile(failed_fraction).ok_or(LifeError::OutOfRange {
            quantity: "failed fraction",
            range: "above 0 and below 1",
            value: failed_fraction,
        })?;
        Ok(self.median * pow(10.0, quantile * self.deviation_log10))
    }

    /// Fraction that has failed by a life, 0 to 1.
    pub fn failed_by(&self, life: f64) -> f64 {
        if life >= self.median && (self.deviation_log10 == 0.0 || self.median == 0.0) {
            return 1.0;
        }
        if life <= 0.0 || self.deviation_log10 == 0.0 || self.median.is_infinite() {
            return 0.0;
        }
        normal_probability((log10(life) - log10(self.median)) / self.deviation_log10)
    }
}

/// Standard deviation of log10 life from scatter of life at one stress and scatter of strength from part to part.
///
/// On the line `N = C S_0^k S^-k` a part stronger by d in log10 of `S_0` lives longer by k d in log10 of N. The two
/// are independent, so their variances add: `sqrt(s_life^2 + (k s_strength)^2)`.
pub fn combined_deviation_log10(life_log10: f64, exponent: f64, strength_log10: f64) -> Result<f64, LifeError> {
    let life = LifeError::not_negative("deviation of log10 life", life_log10)?;
    let exponent = LifeError::positive("stress-life exponent", exponent)?;
    let strength = LifeError::not_negative("deviation of log10 strength", strength_log10)?;
    Ok(libm::hypot(life, exponent * strength))
}
