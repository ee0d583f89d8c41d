use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

/// Why a temperature cannot be computed.
#[derive(Debug, Clone, Copy, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "heat-")]
#[non_exhaustive]
pub enum HeatError {
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
    /// Too few or too many of something.
    #[error("{least} to {most} {what} are accepted, not {count}")]
    Count {
        /// What is counted.
        what: &'static str,
        /// How many were given.
        count: usize,
        /// Fewest accepted.
        least: usize,
        /// Most accepted.
        most: usize,
    },
    /// Positions that do not rise.
    #[error("station {index} does not lie beyond the one before it")]
    NotRising {
        /// Which station, from 0.
        index: usize,
    },
    /// Nothing takes heat away, so a steady state has no meaning.
    #[error("nothing takes heat away: no film, no held end, no contact")]
    NoWayOut,
    /// Stresses or temperatures in a history that are not numbers.
    #[error("sample {index} is not a finite number")]
    NotFinite {
        /// Which sample, from 0.
        index: usize,
    },
    /// The equations of one time step have no solution that the method finds.
    #[error("the temperature at {seconds} s cannot be followed: heat grows too fast with temperature")]
    Unstable {
        /// Time reached.
        seconds: f64,
    },
}

impl HeatError {
    /// What the user can do about it.
    pub fn help(&self) -> String {
        match self {
            Self::OutOfRange { .. } => "correct the number; units are SI here: m, W, K, s".into(),
            Self::Count { .. } => "give another number of them".into(),
            Self::NotRising { .. } => "give stations in order from the small end to the big end".into(),
            Self::NoWayOut => "give a film coefficient, or hold one end at a temperature".into(),
            Self::NotFinite { .. } => {
                "look for a division by zero or a missing value where the history comes from".into()
            }
            Self::Unstable { .. } => {
                "lower the speed or the stress; at this load the part does not survive anyway".into()
            }
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

    /// The count if it lies within the limits, an error naming it otherwise.
    pub(super) fn count(what: &'static str, count: usize, least: usize, most: usize) -> Result<usize, Self> {
        if (least..=most).contains(&count) { Ok(count) } else { Err(Self::Count { what, count, least, most }) }
    }
}
