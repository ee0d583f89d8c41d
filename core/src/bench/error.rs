use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

use crate::input::Help;

/// Why a bench log cannot be used.
#[derive(Debug, Clone, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "bench-")]
#[non_exhaustive]
pub enum BenchError {
    /// A line is no entry.
    #[error("line {line} of the bench log is no entry: {reason}")]
    Format {
        /// Which line, from 1.
        line: usize,
        /// What the reader of the format says.
        reason: String,
    },
    /// A number of an entry that cannot be.
    #[error("the run's {what} is {value}, which is not possible")]
    Implausible {
        /// Which number.
        what: &'static str,
        /// The value.
        value: f64,
    },
    /// A run without a step.
    #[error("the run has no steps")]
    NoSteps,
    /// A line that is no run, or was taken back before.
    #[error("nothing is taken back: {reason}")]
    NotTakenBack {
        /// Why.
        reason: String,
    },
    /// No run of the family.
    #[error("the bench log has no run of the family `{family}`")]
    NoRuns {
        /// The family.
        family: String,
        /// Those it has.
        known: Vec<String>,
    },
}

impl BenchError {
    /// What the user can do about it.
    pub fn help(&self) -> Help {
        match self {
            Self::Format { .. } => Help::CorrectLog,
            Self::Implausible { .. } => "times and speeds are above 0, throttles from 0 to 1".into(),
            Self::NoSteps => Help::GiveSteps,
            Self::NotTakenBack { .. } => "give the number of the line of a run in the log, counted from 1".into(),
            Self::NoRuns { known, .. } if known.is_empty() => Help::AddRun,
            Self::NoRuns { known, .. } => Help::ChooseFamily { known: known.clone() },
        }
    }
}
