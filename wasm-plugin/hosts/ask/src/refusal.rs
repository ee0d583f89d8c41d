use std::fmt;

use layload_core::Error;

use crate::help;

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    /// A short word for the reason that stays the same from version to version, for programs.
    pub code: String,
    /// Key of the job that it is about, where it is about one.
    pub key: Option<String>,
    /// What is wrong, a sentence.
    pub message: String,
    /// What to do about it, in keys of the job.
    pub help: String,
}

impl Refusal {
    /// A reason of a binding's own.
    pub fn own(code: &str, message: impl Into<String>, help: impl Into<String>) -> Self {
        Self { code: code.into(), key: None, message: message.into(), help: help.into() }
    }

    pub(crate) fn question(reason: &str) -> Self {
        Self::own(
            "question-unreadable",
            format!("the question cannot be read: {reason}"),
            "ask for example {\"question\": \"check\"}; the questions are check, directions, sweep, walls and compare",
        )
    }

    pub(crate) fn job_json(reason: &str) -> Self {
        Self::own(
            "job-unreadable",
            format!("the job cannot be read as JSON: {reason}"),
            "write the tables of a job file as objects, for example {\"engine\": {\"stroke_mm\": 46.0}}, and leave out what is null",
        )
    }
}

impl From<Error> for Refusal {
    fn from(error: Error) -> Self {
        Self {
            code: error.code().into(),
            key: error.key().map(String::from),
            message: error.to_string(),
            help: help::words(&error.help()),
        }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}", self.message)
    }
}

impl std::error::Error for Refusal {}
