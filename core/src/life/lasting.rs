use libm::{exp, log};

use super::levels::TensionLevels;

/// Rupture of one place under a load that lasts, by Zhurkov's law summed by Bailey's integral over the levels of tension.
///
/// Tension is measured in parts of the short-term strength at the place's temperature.
#[derive(Debug, Clone, PartialEq)]
pub struct Lasting {
    /// Logarithm of the damage a second without stress.
    ln_rest: f64,
    /// Growth of the logarithm of damage with tension over strength.
    pull: f64,
    /// Tension over strength, and share of the time.
    levels: Vec<(f64, f64)>,
    greatest: f64,
}

impl Lasting {
    /// From the exponents of a law that takes stress in parts of the strength ([`super::zhurkov::KineticStrength::exponents`]), and
    /// levels of tension, each `per_stress` times its number in parts of the strength.
    pub fn new((ln_rest, pull): (f64, f64), levels: &TensionLevels, per_stress: f64) -> Self {
        let levels: Vec<(f64, f64)> =
            levels.all().iter().map(|&(stress, share)| (stress * per_stress, share)).collect();
        let greatest = levels.iter().map(|level| level.0).fold(0.0, f64::max);
        Self { ln_rest, pull, levels, greatest }
    }

    /// No tension at all, where the law does not matter.
    pub fn none() -> Self {
        Self { ln_rest: f64::NEG_INFINITY, pull: 0.0, levels: Vec::new(), greatest: 0.0 }
    }

    /// Whether there is tension at all.
    pub fn pulls(&self) -> bool {
        self.greatest > 0.0
    }

    /// Logarithm of the damage a second, with its derivative by the factor, when all tension is `factor` times as great.
    pub fn ln_rate(&self, factor: f64) -> (f64, f64) {
        let steepness = self.pull * factor;
        let (mut sum, mut slope, mut shares) = (0.0, 0.0, 0.0);
        // Counted from the highest level, which keeps the exponentials in range.
        for &(tension, share) in &self.levels {
            let part = share * exp(steepness * (tension - self.greatest));
            sum += part;
            slope += part * tension;
            shares += share;
        }
        let rest = (1.0 - shares).max(0.0) * exp(-steepness * self.greatest);
        let whole = sum + rest;
        (self.ln_rest + steepness * self.greatest + log(whole), self.pull * slope / whole)
    }

    /// The most that the logarithm of the damage can grow with that of the factor.
    pub fn steepest(&self, factor: f64) -> f64 {
        self.pull * factor * self.greatest
    }

    /// Factor on all tension at which the highest level, if it were there all the time, would rupture the place within a time
    /// given as its logarithm; infinite without tension.
    pub fn factor_at_most(&self, ln_seconds: f64) -> f64 {
        (-(self.ln_rest + ln_seconds)).max(0.0) / (self.pull * self.greatest)
    }

    /// The most that [`Self::ln_rate`] can be: the highest level all the time.
    pub fn ln_rate_at_most(&self, factor: f64) -> f64 {
        self.ln_rest + self.pull * factor * self.greatest
    }
}
