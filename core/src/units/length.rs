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

/// Rods and pistons of small engines are at least and at most this long, mm (common practice, no source).
const LENGTHS_MM: [f64; 2] = [16.0, 450.0];

/// Units in which a part of this greatest length, in file units, is as long as rods and pistons of small engines are.
///
/// More than one may fit: 5 units are 50 mm in centimetres and 127 mm in inches. A length in millimetres is never too great:
/// what is that large is no part of a small engine in any unit.
pub fn fitting_units(length: f64) -> Vec<LengthUnit> {
    let [least, most] = LENGTHS_MM;
    if length >= least {
        return vec![LengthUnit::Millimetre];
    }
    let fits = |unit: &LengthUnit| (least..=most).contains(&(length * unit.metres() * 1e3));
    [LengthUnit::Centimetre, LengthUnit::Inch, LengthUnit::Metre].into_iter().filter(fits).collect()
}
