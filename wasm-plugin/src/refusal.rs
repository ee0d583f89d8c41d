//! Errors of the core as hosts see them.

use layload_core::Error;
use layload_core::FieldError;
use layload_core::job::JobError;

use crate::interface::checker::{Explanation, Refusal};
use layload_ask::help;

/// An error of the core in the interface's words.
pub(crate) fn explained(error: &Error) -> Explanation {
    Explanation {
        code: error.code().into(),
        key: error.key().map(String::from),
        message: error.to_string(),
        help: help::words(&error.help()),
    }
}

impl From<Error> for Refusal {
    fn from(error: Error) -> Self {
        let explanation = explained(&error);
        match error {
            Error::Mesh(_) | Error::LikelyUnit { .. } => Self::Mesh(explanation),
            Error::Part(_) => Self::Part(explanation),
            Error::Job(_) => Self::Job(explanation),
            Error::Heat(_) => Self::Heat(explanation),
            Error::Field(FieldError::CellCount { .. } | FieldError::NotOfThisKind)
            | Error::DirectionCount { .. }
            | Error::SpeedCount { .. }
            | Error::SpeedRange { .. }
            | Error::PaintedByField => Self::Request(explanation),
            Error::Cancelled => Self::Cancelled,
            _ => Self::Other(explanation),
        }
    }
}

impl From<JobError> for Refusal {
    fn from(error: JobError) -> Self {
        Error::from(error).into()
    }
}
