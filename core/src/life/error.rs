use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

/// Why a life cannot be computed.
#[derive(Debug, Clone, Copy, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "life-")]
#[non_exhaustive]
pub enum LifeError {
    /// A sample of a history is infinite or not a number.
    #[error("sample {index} of the history is not a finite number")]
    NotFinite {
        /// Which sample, from 0.
        index: usize,
    },
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
    /// Too few samples to be a history.
    #[error("a history needs at least {least} samples, not {count}")]
    TooShort {
        /// Samples given.
        count: usize,
        /// Fewest accepted.
        least: usize,
    },
    /// Nothing to add up.
    #[error("there are no steps to sum")]
    NoSteps,
}

impl LifeError {
    /// What the user can do about it.
    pub fn help(&self) -> String {
        match self {
            Self::NotFinite { .. } => {
                "look for a division by zero or a missing value where the history comes from".into()
            }
            Self::OutOfRange { .. } => "correct the number; units are SI here".into(),
            Self::TooShort { .. } => "give at least one whole cycle".into(),
            Self::NoSteps => "give at least one step of damage rate and time".into(),
        }
    }

    /// The value if it is finite and above zero, an error naming it otherwise.
    pub(super) fn positive(quantity: &'static str, value: f64) -> Result<f64, Self> {
        if value.is_finite() && value > 0.0 {
            Ok(value)
        } else {
            Err(Self::OutOfRange { quantity, range: "a number above 0", value })
        }
    }

    /// The value if it is finite and not below zero, an error naming it otherwise.
    pub(super) fn not_negative(quantity: &'static str, value: f64) -> Result<f64, Self> {
        if value.is_finite() && value >= 0.0 {
            Ok(value)
        } else {
            Err(Self::OutOfRange { quantity, range: "a number from 0", value })
        }
    }
}
