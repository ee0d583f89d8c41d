use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

use crate::input::Help;
use crate::material::MaterialError;

/// Why test pieces give no card.
#[derive(Debug, Clone, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "coupon-")]
#[non_exhaustive]
pub enum CouponError {
    /// No test at all.
    #[error("the table has no tests")]
    Empty,
    /// A row that is not a known test.
    #[error("row {row}: `{test}` is no kind of test")]
    UnknownTest {
        /// Row, the first below the heading being 1.
        row: usize,
        /// What it says.
        test: String,
    },
    /// A row without something its test needs.
    #[error("row {row}: a {test} test needs {column}")]
    Missing {
        /// Row.
        row: usize,
        /// The kind of test.
        test: &'static str,
        /// The column that is empty.
        column: &'static str,
    },
    /// A number that cannot be.
    #[error("row {row}: {column} is {value}, which is not possible")]
    Implausible {
        /// Row.
        row: usize,
        /// The column.
        column: &'static str,
        /// The value.
        value: f64,
    },
    /// A word that is not one of those known.
    #[error("row {row}: {column} is `{word}`, not one of {known}")]
    UnknownWord {
        /// Row.
        row: usize,
        /// The column.
        column: &'static str,
        /// What it says.
        word: String,
        /// What it may say.
        known: &'static str,
    },
    /// A fit whose result cannot go into a card.
    #[error("the tests give {what} = {value}, which no card can hold")]
    Unfit {
        /// Which value.
        what: String,
        /// The value.
        value: f64,
    },
    /// The base card.
    #[error(transparent)]
    Material(#[from] MaterialError),
}

impl CouponError {
    /// What the user can do about it.
    pub fn help(&self) -> Help {
        match self {
            Self::Empty => "give one test a row below the heading; see samples/coupons.csv".into(),
            Self::UnknownTest { .. } => {
                "tests are tensile, bending, compression, shear, fatigue, creep-rupture and creep".into()
            }
            Self::Missing { column, .. } => format!("fill in the column {column}; see samples/coupons.csv").into(),
            Self::Implausible { .. } => "check the number and its unit, which is in the column's name".into(),
            Self::UnknownWord { known, .. } => format!("write one of {known}").into(),
            Self::Unfit { .. } => {
                "look for a slip in stresses or times; a line through tests must fall with stress".into()
            }
            Self::Material(error) => error.help(),
        }
    }
}
