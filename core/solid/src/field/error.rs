use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

use crate::input::Help;

/// Why a stress field was not computed.
#[derive(Debug, Clone, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "field-")]
#[non_exhaustive]
pub enum FieldError {
    /// The kind of part has none.
    #[error("this kind of part has no stress field")]
    NotOfThisKind,
    /// A number of cells out of range.
    #[error("{wanted} cells are outside {low} to {high}")]
    CellCount {
        /// What was asked for.
        wanted: usize,
        /// Fewest.
        low: usize,
        /// Most.
        high: usize,
    },
    /// The box round the part would hold too many cells.
    #[error("the part fills so little of the box round it that {cells} cells would be needed, more than {limit}")]
    TooSparse {
        /// Cells of the box.
        cells: u64,
        /// Most that are kept.
        limit: u64,
    },
    /// The mesh encloses nothing, or is inside out.
    #[error("the mesh encloses no volume to divide into cells")]
    NoVolume,
    /// Elastic constants that store negative energy.
    #[error("the elastic constants are not those of a stable material: {reason}")]
    Unstable {
        /// What is wrong with them.
        reason: &'static str,
    },
    /// A number that makes no sense.
    #[error("{what} is {value}, not {range}")]
    OutOfRange {
        /// Which number.
        what: &'static str,
        /// What was given, SI.
        value: f64,
        /// What is possible.
        range: &'static str,
    },
    /// A load or support names facets that carry nothing.
    #[error("the {what} has no surface to act on")]
    NoSurface {
        /// Load or support.
        what: &'static str,
    },
    /// A bore goes only half round, and its cap is another part.
    #[error("the {what} is split: how its cap and bolts pull is not in the mesh, so the stress field is not solved")]
    Split {
        /// Eye.
        what: &'static str,
    },
    /// A load pushes the part where nothing holds it.
    #[error("the loads are out of balance by {share:.2e} of their size, and no support takes the difference")]
    OutOfBalance {
        /// Unbalanced part over the whole load.
        share: f64,
    },
    /// The iteration did not come to its end.
    #[error(
        "the stress field did not settle: residual {residual:.1e} after {iterations} iterations, {wanted:.1e} wanted"
    )]
    NotConverged {
        /// Iterations done.
        iterations: usize,
        /// Residual over the load.
        residual: f64,
        /// What was wanted.
        wanted: f64,
    },
    /// The touching points kept changing.
    #[error("the points that touch the pin did not settle in {rounds} rounds")]
    ContactNotSettled {
        /// Rounds done.
        rounds: usize,
    },
}

impl FieldError {
    /// What the user can do about it.
    pub fn help(&self) -> Help {
        match self {
            Self::NotOfThisKind => "check it by sections alone".into(),
            Self::CellCount { .. } | Self::TooSparse { .. } => "give another number of cells".into(),
            Self::NoVolume => "check the mesh: its facets must face outward and enclose the part".into(),
            Self::Unstable { .. } => "correct the moduli and Poisson's ratio of the material card".into(),
            Self::OutOfRange { .. } => "correct the number; units are SI here".into(),
            Self::NoSurface { .. } => "name facets of the part's surface".into(),
            Self::Split { .. } => Help::LeaveFieldOut,
            Self::OutOfBalance { .. } => "add the forces that hold the part, or a support".into(),
            Self::NotConverged { .. } => {
                "take another number of cells; walls thinner than a cell and loose pieces slow the solution".into()
            }
            Self::ContactNotSettled { .. } => "take more cells, or a smaller change of load or clearance".into(),
        }
    }

    pub(super) fn positive(what: &'static str, value: f64) -> Result<f64, Self> {
        if value.is_finite() && value > 0.0 {
            Ok(value)
        } else {
            Err(Self::OutOfRange { what, value, range: "a number above 0" })
        }
    }
}
