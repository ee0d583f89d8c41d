use libm::pow;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::error::LifeError;

/// What rolls in the bearing; decides the load exponent of ISO 281.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum RollingElement {
    /// Balls, exponent 3.
    Ball,
    /// Rollers and needles, exponent 10/3.
    Roller,
}

impl RollingElement {
    /// The load exponent p.
    pub fn load_exponent(self) -> f64 {
        match self {
            Self::Ball => 3.0,
            Self::Roller => 10.0 / 3.0,
        }
    }
}

/// One stretch of bearing duty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BearingLoad {
    /// Load during the stretch; its size counts, not its sign.
    pub force_n: f64,
    /// Turns under that load, not negative.
    pub revolutions: f64,
}

/// Turns that nine bearings in ten outlive, (C / P)^p million: basic rating life L10 of ISO 281.
///
/// `dynamic_rating_n` is C, `load_n` the equivalent load P, not negative; without load the life is infinite. Holds
/// for a stiff housing and shaft; a bearing in plastic keeps its shape less well.
pub fn basic_rating_life(element: RollingElement, dynamic_rating_n: f64, load_n: f64) -> Result<f64, LifeError> {
    let rating_n = LifeError::positive("dynamic load rating", dynamic_rating_n)?;
    let load_n = LifeError::not_negative("equivalent load", load_n)?;
    Ok(1e6 * power(rating_n / load_n, element))
}

/// Steady load of the same life as a changing one: (sum of P^p turns / sum of turns)^(1/p), as ISO 281 follows for
/// loads that add by Miner's rule.
pub fn equivalent_load(element: RollingElement, loads: &[BearingLoad]) -> Result<f64, LifeError> {
    let (mut sum, mut turns, mut largest) = (0.0, 0.0, 0.0_f64);
    for load in loads {
        if !load.force_n.is_finite() {
            return Err(LifeError::OutOfRange { quantity: "bearing load", range: "finite", value: load.force_n });
        }
        largest = largest.max(load.force_n.abs());
        turns += LifeError::not_negative("number of revolutions", load.revolutions)?;
    }
    if turns == 0.0 || loads.is_empty() {
        return Err(LifeError::NoSteps);
    }
    if largest == 0.0 {
        return Ok(0.0);
    }
    // Relative to the largest load, so that no power overflows.
    for load in loads {
        sum += power(load.force_n.abs() / largest, element) * (load.revolutions / turns);
    }
    Ok(largest * pow(sum, 1.0 / element.load_exponent()))
}

fn power(ratio: f64, element: RollingElement) -> f64 {
    match element {
        // A product is exact to the last digit where a general power need not be.
        RollingElement::Ball => ratio * ratio * ratio,
        RollingElement::Roller => pow(ratio, element.load_exponent()),
    }
}
