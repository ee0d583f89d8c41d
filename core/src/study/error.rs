use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

/// Why a study cannot be run.
#[derive(Debug, Clone, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "study-")]
#[non_exhaustive]
pub enum StudyError {
    /// The text is not in the format.
    #[error("the study file cannot be read: {reason}")]
    Format {
        /// What the reader of the format says.
        reason: String,
    },
    /// Nothing varies.
    #[error("the study has no inputs to vary")]
    NoInputs,
    /// No mesh.
    #[error("the study has no meshes")]
    NoMeshes,
    /// An input twice.
    #[error("the input {name} is there twice")]
    Twice {
        /// Which.
        name: &'static str,
    },
    /// An input without a sound range.
    #[error("the input {name} {wrong}")]
    Input {
        /// Which.
        name: &'static str,
        /// What is wrong.
        wrong: &'static str,
    },
    /// No case to solve, or all of them at once.
    #[error("solved_every is 0")]
    SolvedEvery,
    /// Too few or too many cases.
    #[error("the study would have {count} cases; {least} to {most} are possible")]
    Cases {
        /// How many.
        count: usize,
        /// Fewest.
        least: usize,
        /// Most.
        most: usize,
    },
}

impl StudyError {
    /// What the user can do about it.
    pub fn help(&self) -> String {
        match self {
            Self::Format { .. } => "see samples/study.toml".into(),
            Self::NoInputs => "give [[inputs]] with a name and low and high, or values, or words".into(),
            Self::NoMeshes => "give meshes = [\"PART.stl\"], from the folder of the study file".into(),
            Self::Twice { .. } => "leave one of them out".into(),
            Self::Input { .. } => {
                "numbers take low and high, with levels for a matrix, or values; material and build-direction take words"
                    .into()
            }
            Self::SolvedEvery => {
                "give 1 to solve every case, 10 for a tenth of them; quick = true asks sections alone".into()
            }
            Self::Cases { .. } => "change cases, or the levels and values of a matrix".into(),
        }
    }
}
