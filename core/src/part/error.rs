use thiserror::Error;

/// Why no connecting rod was recognised.
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
    /// More than one body is a rod.
    #[error("the file holds {count} connecting rods")]
    SeveralRods {
        /// How many.
        count: usize,
    },
    /// Bores given by hand do not fit the mesh.
    #[error("the bores given by hand do not fit this mesh: {reason}")]
    GivenDoesNotFit {
        /// What is wrong.
        reason: String,
    },
}

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
            Self::SeveralRods { .. } => "put one rod in a file and check each by itself".into(),
            Self::GivenDoesNotFit { .. } => {
                "bore centres are in the coordinates of the file, in millimetres, and the axis is shared by both".into()
            }
        }
    }
}
