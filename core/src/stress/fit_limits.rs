use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::error::StressError;

/// Tolerance classes of ISO 286 that press fits of small bores use.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
pub enum ToleranceClass {
    /// Hole, from nominal size upward.
    H7,
    /// Shaft, transition to light press fit.
    #[serde(rename = "n6")]
    N6,
    /// Shaft, press fit.
    #[serde(rename = "p6")]
    P6,
    /// Shaft, medium press fit.
    #[serde(rename = "r6")]
    R6,
    /// Shaft, heavy press fit.
    #[serde(rename = "s6")]
    S6,
}

/// Upper end of each step of nominal size (mm), IT6 and IT7, and the lower limits of n6, p6, r6 and s6, all in
/// micrometres; the first step begins above 3 mm.
///
/// ISO 286-1 and 286-2; read from a reprint of the equal table of JIS B 0401:1999, n6, p6 and s6 also from a second one.
const STEPS: [(f64, [f64; 6]); 7] = [
    (6.0, [8.0, 12.0, 8.0, 12.0, 15.0, 19.0]),
    (10.0, [9.0, 15.0, 10.0, 15.0, 19.0, 23.0]),
    (18.0, [11.0, 18.0, 12.0, 18.0, 23.0, 28.0]),
    (30.0, [13.0, 21.0, 15.0, 22.0, 28.0, 35.0]),
    (50.0, [16.0, 25.0, 17.0, 26.0, 34.0, 43.0]),
    (65.0, [19.0, 30.0, 20.0, 32.0, 41.0, 53.0]),
    (80.0, [19.0, 30.0, 20.0, 32.0, 43.0, 59.0]),
];

/// Lower and upper limit of a size, m from the nominal size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Lower limit deviation.
    pub lower: f64,
    /// Upper limit deviation.
    pub upper: f64,
}

impl ToleranceClass {
    /// Limits at a nominal diameter above 3 mm and up to 80 mm, m.
    pub fn limits(self, diameter: f64) -> Result<Limits, StressError> {
        const MICROMETRE: f64 = 1e-6;
        let millimetres = diameter * 1e3;
        let step = STEPS.iter().find(|(upper, _)| millimetres <= upper * (1.0 + 1e-12));
        let Some((_, [it6, it7, n, p, r, s])) = step.filter(|_| millimetres > 3.0) else {
            return Err(StressError::NoLimits { diameter });
        };
        let (lower, width) = match self {
            Self::H7 => (0.0, *it7),
            Self::N6 => (*n, *it6),
            Self::P6 => (*p, *it6),
            Self::R6 => (*r, *it6),
            Self::S6 => (*s, *it6),
        };
        Ok(Limits { lower: lower * MICROMETRE, upper: (lower + width) * MICROMETRE })
    }
}

/// Least and greatest diametral interference of a shaft in a hole, m; a clearance is negative.
pub fn interference(hole: Limits, shaft: Limits) -> (f64, f64) {
    (shaft.lower - hole.upper, shaft.upper - hole.lower)
}
