use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What a pin runs in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Runs {
    /// In the plastic itself, without any lubricant.
    Dry,
    /// In the plastic itself, in oil mist or in splashed oil.
    Oiled,
    /// In the plastic itself, greased when it was put together.
    Greased,
    /// In a rolling bearing.
    Bearing,
    /// In a metal bush.
    Bush,
}

impl Runs {
    /// Whether the pin slides on the plastic.
    pub(crate) fn in_plastic(self) -> bool {
        matches!(self, Self::Dry | Self::Oiled | Self::Greased)
    }

    /// The word of job files.
    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::Dry => "dry",
            Self::Oiled => "oiled",
            Self::Greased => "greased",
            Self::Bearing => "bearing",
            Self::Bush => "bush",
        }
    }
}
