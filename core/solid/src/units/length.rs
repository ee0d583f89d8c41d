use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Unit of the coordinates in a mesh file; STL itself states none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LengthUnit {
    /// Millimetres, the custom of the trade.
    #[default]
    Millimetre,
    /// Centimetres.
    Centimetre,
    /// Inches.
    Inch,
    /// Metres.
    Metre,
}

impl LengthUnit {
    /// Metres in one unit.
    pub fn metres(self) -> f64 {
        match self {
            Self::Millimetre => 1e-3,
            Self::Centimetre => 1e-2,
            Self::Inch => 0.0254,
            Self::Metre => 1.0,
        }
    }

    /// Name of several.
    pub fn plural(self) -> &'static str {
        match self {
            Self::Millimetre => "millimetres",
            Self::Centimetre => "centimetres",
            Self::Inch => "inches",
            Self::Metre => "metres",
        }
    }

    /// Name as written on the command line and in job files.
    pub fn word(self) -> &'static str {
        match self {
            Self::Millimetre => "millimetre",
            Self::Centimetre => "centimetre",
            Self::Inch => "inch",
            Self::Metre => "metre",
        }
    }
}
