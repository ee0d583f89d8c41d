use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Unit of the coordinates in a mesh file; STL itself states none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LengthUnit {
    /// Millimetres, the custom of the trade.
    #[default]
    Millimetre,
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
            Self::Inch => 0.0254,
            Self::Metre => 1.0,
        }
    }

    /// Name as written on the command line and in job files.
    pub fn word(self) -> &'static str {
        match self {
            Self::Millimetre => "millimetre",
            Self::Inch => "inch",
            Self::Metre => "metre",
        }
    }
}

/// Guesses the unit of a rod or piston from the greatest extent of its box, in file units.
///
/// Parts of small engines measure 20 to 400 mm: what is smaller than 0.8 units is likely in metres, what is smaller than
/// 16 units in inches. (Common practice, no source.)
pub fn likely_unit(greatest_extent: f64) -> LengthUnit {
    if greatest_extent < 0.8 {
        LengthUnit::Metre
    } else if greatest_extent < 16.0 {
        LengthUnit::Inch
    } else {
        LengthUnit::Millimetre
    }
}
