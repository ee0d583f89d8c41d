use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

/// Why a stress cannot be computed.
#[derive(Debug, Clone, Copy, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "stress-")]
#[non_exhaustive]
pub enum StressError {
    /// A number outside its range.
    #[error("the {quantity} must be {range}, not {value}")]
    OutOfRange {
        /// Which number.
        quantity: &'static str,
        /// What is accepted.
        range: &'static str,
        /// The value given, in SI units.
        value: f64,
    },
    /// Radii that do not nest.
    #[error("the {inner_name} ({:.3} mm) must be smaller than the {outer_name} ({:.3} mm)", inner * 1e3, outer * 1e3)]
    NotNested {
        /// Name of the smaller radius.
        inner_name: &'static str,
        /// Its value, m.
        inner: f64,
        /// Name of the larger radius.
        outer_name: &'static str,
        /// Its value, m.
        outer: f64,
    },
    /// A nominal diameter the table of limits does not hold.
    #[error("no limits are listed for a diameter of {:.3} mm", diameter * 1e3)]
    NoLimits {
        /// The diameter, m.
        diameter: f64,
    },
}

impl StressError {
    /// What the user can do about it.
    pub fn help(&self) -> String {
        match self {
            Self::OutOfRange { .. } => "correct the number; units are SI here".into(),
            Self::NotNested { .. } => "give radii from the inside out".into(),
            Self::NoLimits { .. } => {
                "limits are listed above 3 mm and up to 80 mm; give the interference itself".into()
            }
        }
    }

    pub(super) fn positive(quantity: &'static str, value: f64) -> Result<f64, Self> {
        if value.is_finite() && value > 0.0 {
            Ok(value)
        } else {
            Err(Self::OutOfRange { quantity, range: "a number above 0", value })
        }
    }

    pub(super) fn not_negative(quantity: &'static str, value: f64) -> Result<f64, Self> {
        if value.is_finite() && value >= 0.0 {
            Ok(value)
        } else {
            Err(Self::OutOfRange { quantity, range: "a number from 0", value })
        }
    }

    pub(super) fn finite(quantity: &'static str, value: f64) -> Result<f64, Self> {
        if value.is_finite() { Ok(value) } else { Err(Self::OutOfRange { quantity, range: "a number", value }) }
    }

    pub(super) fn poisson_ratio(value: f64) -> Result<f64, Self> {
        if (0.0..=0.5).contains(&value) {
            Ok(value)
        } else {
            Err(Self::OutOfRange { quantity: "Poisson's ratio", range: "0 to 0.5", value })
        }
    }
}
