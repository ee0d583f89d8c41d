use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

use crate::input::{BoresByHand, Help};

/// Why no part was recognised.
#[derive(Debug, Clone, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "part-")]
#[non_exhaustive]
pub enum PartError {
    /// No body of the file is a rod.
    #[error("no connecting rod was recognised: {reason}; found {found}")]
    NotARod {
        /// The first thing that speaks against it.
        reason: String,
        /// The bores found, in words.
        found: String,
    },
    /// No body of the file is a piston.
    #[error("no piston was recognised: {reason}; found {found}")]
    NotAPiston {
        /// The first thing that speaks against it.
        reason: String,
        /// The round surfaces found, in words.
        found: String,
    },
    /// No body of the file is a rod or a piston.
    #[error("no connecting rod was recognised: {rod}; nor a piston: {piston}; found {found}")]
    Neither {
        /// What speaks against a rod.
        rod: String,
        /// What speaks against a piston.
        piston: String,
        /// What was found, in words.
        found: String,
    },
    /// More than one body is a piston.
    #[error("the file holds {count} pistons")]
    SeveralPistons {
        /// How many.
        count: usize,
    },
    /// More than one body is a rod.
    #[error("the file holds {count} connecting rods")]
    SeveralRods {
        /// How many.
        count: usize,
    },
    /// The file holds more than one part.
    #[error("the file holds {what}: {list}")]
    SeveralParts {
        /// How many of which, in words.
        what: String,
        /// Its bodies, by number.
        list: String,
    },
    /// The file has no body of the number asked for.
    #[error("there is no body {number}: the file holds {count}: {list}")]
    NoSuchBody {
        /// The number.
        number: usize,
        /// Bodies there are.
        count: usize,
        /// The bodies, by number.
        list: String,
    },
    /// Bores of so few sides that they may be pockets for nuts.
    #[error("this may be a connecting rod whose bores have few sides: {told}")]
    FewSides {
        /// Both bores in words.
        told: String,
        /// The same bores as they are named by hand.
        bores: BoresByHand,
    },
    /// Bores given by hand without their axis, where the mesh does not tell it.
    #[error("the direction of the bore axes is missing, and the mesh does not tell it")]
    NoPinAxis,
    /// Bores given by hand do not fit the mesh.
    #[error("the bores given by hand do not fit this mesh: {reason}")]
    GivenDoesNotFit {
        /// What is wrong.
        reason: String,
    },
}

impl PartError {
    /// The key of the job that it is about, as in a job file, where it is about one.
    pub fn key(&self) -> Option<&str> {
        match self {
            Self::SeveralParts { .. } | Self::NoSuchBody { .. } => Some("part.body"),
            Self::NoPinAxis => Some("part.pin_axis"),
            _ => None,
        }
    }

    /// What the user can do about it.
    pub fn help(&self) -> Help {
        match self {
            Self::NotARod { .. } => Help::NameRod,
            Self::NotAPiston { .. } => Help::NamePiston,
            Self::Neither { .. } => Help::NameEither,
            Self::SeveralPistons { .. } => "put one piston in a file and check each by itself".into(),
            Self::SeveralRods { .. } => "put one rod in a file and check each by itself".into(),
            Self::SeveralParts { .. } | Self::NoSuchBody { .. } => Help::ChooseBody,
            Self::FewSides { bores, .. } => Help::ConfirmBores(*bores),
            Self::NoPinAxis => Help::GivePinAxis,
            Self::GivenDoesNotFit { .. } => {
                "bore centres are in the coordinates of the file, in millimetres, and the axis is shared by both".into()
            }
        }
    }
}
