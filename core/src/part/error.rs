use thiserror::Error;

/// Why no part was recognised.
#[derive(Debug, Clone, PartialEq, Error)]
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
        /// The options that say they are bores.
        options: String,
    },
    /// Bores given by hand do not fit the mesh.
    #[error("the bores given by hand do not fit this mesh: {reason}")]
    GivenDoesNotFit {
        /// What is wrong.
        reason: String,
    },
}

const PISTON_HELP: &str = "if it is a piston, say --part piston and name what is not seen: --crown-direction x,y,z, \
                           --piston-body x,y,z,diameter (a point of its axis), --pin-bore x,y,z,diameter and --pin-axis \
                           x,y,z, or the same keys in [part.piston] of the job file";

impl PartError {
    /// What the user can do about it.
    pub fn help(&self) -> String {
        match self {
            Self::NotARod { .. } => {
                "if it is a rod all the same, name its bores with --small-end x,y,z,diameter, --big-end x,y,z,diameter \
                 (millimetres) and --pin-axis x,y,z, or with [part.small_end], [part.big_end] and part.pin_axis in the \
                 job file"
                    .into()
            }
            Self::NotAPiston { .. } => PISTON_HELP.into(),
            Self::Neither { .. } => format!(
                "if it is a rod, name its bores with --small-end x,y,z,diameter, --big-end x,y,z,diameter (millimetres) and \
                 --pin-axis x,y,z; {PISTON_HELP}"
            ),
            Self::SeveralPistons { .. } => "put one piston in a file and check each by itself".into(),
            Self::SeveralRods { .. } => "put one rod in a file and check each by itself".into(),
            Self::SeveralParts { .. } | Self::NoSuchBody { .. } => {
                "choose one by its number with --body N, or with body = N in [part] of the job file".into()
            }
            Self::FewSides { options, .. } => format!(
                "export the part again with finer curves (a chord error of 0.01 mm); or, if the print shall have these \
                 sides, say that they are bores: {options}"
            ),
            Self::GivenDoesNotFit { .. } => {
                "bore centres are in the coordinates of the file, in millimetres, and the axis is shared by both".into()
            }
        }
    }
}
