use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How well a number is founded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Source {
    /// Measured on the user's own test pieces.
    Coupon,
    /// Printed in a paper, standard or handbook that the value names.
    Published,
    /// Drawn from tests of like families: those of this one are too few.
    Pooled,
    /// Accepted in the trade, without one source to name.
    CommonPractice,
    /// Recalled; to be replaced by a measured value.
    Memory,
}

impl Source {
    /// Relative standard uncertainty taken for a value of this source that states none of its own.
    ///
    /// A judgement, not a measurement: printed plastics differ this much between makers, machines and rooms.
    pub fn usual_spread(self) -> f64 {
        match self {
            Self::Coupon => 0.05,
            Self::Published => 0.15,
            Self::CommonPractice => 0.20,
            Self::Pooled | Self::Memory => 0.30,
        }
    }

    /// The word used in text output.
    pub fn word(self) -> &'static str {
        match self {
            Self::Coupon => "coupon",
            Self::Published => "published",
            Self::Pooled => "pooled",
            Self::CommonPractice => "common practice",
            Self::Memory => "memory",
        }
    }
}
