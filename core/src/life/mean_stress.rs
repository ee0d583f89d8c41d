use libm::pow;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::error::LifeError;

/// Walker's exponent g, above 0 and up to 1: 1 gives the mean stress no weight, 0.5 is Smith, Watson and Topper.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(try_from = "f64", into = "f64")]
#[schemars(with = "f64")]
pub struct WalkerExponent(f64);

impl WalkerExponent {
    /// Refuses anything outside (0, 1].
    pub fn new(value: f64) -> Result<Self, LifeError> {
        if value > 0.0 && value <= 1.0 {
            Ok(Self(value))
        } else {
            Err(LifeError::OutOfRange { quantity: "Walker exponent", range: "above 0 and up to 1", value })
        }
    }

    /// The exponent.
    pub fn value(self) -> f64 {
        self.0
    }
}

impl TryFrom<f64> for WalkerExponent {
    type Error = LifeError;

    fn try_from(value: f64) -> Result<Self, LifeError> {
        Self::new(value)
    }
}

impl From<WalkerExponent> for f64 {
    fn from(exponent: WalkerExponent) -> Self {
        exponent.0
    }
}

/// How the mean of a cycle counts, as the amplitude that does the same harm at zero mean.
///
/// Formulas as in Dowling, *Mechanical Behavior of Materials*, ch. 9; `S_a` amplitude, `S_m` mean,
/// `S_max = S_m + S_a`, `S_u` ultimate strength.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum MeanStress {
    /// `S_max^(1-g) S_a^g` (Walker 1970). A compressive mean lowers it; nothing is left once `S_max` is not tension.
    Walker {
        /// The exponent g.
        exponent: WalkerExponent,
    },
    /// `S_a / (1 - S_m / S_u)` (Goodman 1899). A compressive mean earns no credit.
    Goodman,
    /// `S_a / (1 - (S_m / S_u)^2)` (Gerber 1874). A compressive mean earns no credit.
    Gerber,
    /// `sqrt(S_max S_a)` (Smith, Watson and Topper 1970). As Walker's with g = 0.5.
    SmithWatsonTopper,
}

/// What a cycle amounts to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum EquivalentAmplitude {
    /// Fully reversed amplitude of the same harm, in Pa; zero is harmless.
    Reversed(f64),
    /// The highest stress of the cycle reaches the ultimate strength: the first cycle breaks the part.
    Broken,
}

impl MeanStress {
    /// Whether twice the stress is twice the equivalent amplitude: the ultimate strength only says when a cycle breaks.
    pub fn scales_with_stress(&self) -> bool {
        match self {
            Self::Walker { .. } | Self::SmithWatsonTopper => true,
            Self::Goodman | Self::Gerber => false,
        }
    }

    /// The fully reversed amplitude equivalent to a cycle.
    ///
    /// `amplitude_pa` is not negative, tension is positive. A cycle whose `S_max` reaches the ultimate strength is
    /// [`EquivalentAmplitude::Broken`], and so is one with a number that is not finite: bad input must not pass for
    /// harmless. Only the tension side is judged; crushing is a static question.
    pub fn equivalent(&self, amplitude_pa: f64, mean_pa: f64, ultimate_pa: f64) -> EquivalentAmplitude {
        let highest_pa = mean_pa + amplitude_pa;
        let usable = amplitude_pa >= 0.0 && highest_pa.is_finite() && ultimate_pa > 0.0;
        if !usable || highest_pa >= ultimate_pa {
            return EquivalentAmplitude::Broken;
        }
        let tension_share = mean_pa.max(0.0) / ultimate_pa;
        EquivalentAmplitude::Reversed(match self {
            Self::Walker { exponent } => walker(amplitude_pa, highest_pa, exponent.value()),
            Self::SmithWatsonTopper => (highest_pa.max(0.0) * amplitude_pa).sqrt(),
            Self::Goodman => amplitude_pa / (1.0 - tension_share),
            Self::Gerber => amplitude_pa / (1.0 - tension_share * tension_share),
        })
    }
}

fn walker(amplitude_pa: f64, highest_pa: f64, exponent: f64) -> f64 {
    if highest_pa <= 0.0 || amplitude_pa == 0.0 {
        return 0.0;
    }
    highest_pa * pow(amplitude_pa / highest_pa, exponent)
}
