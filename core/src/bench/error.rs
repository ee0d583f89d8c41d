use thiserror::Error;

/// Why a bench log cannot be used.
#[derive(Debug, Clone, PartialEq, Error)]
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
    pub fn help(&self) -> String {
        match self {
            Self::Format { .. } => {
                "correct or delete that line; entries are best added with layload learn LOG --add".into()
            }
            Self::Implausible { .. } => "times and speeds are above 0, throttles from 0 to 1".into(),
            Self::NoSteps => "give --steps RPM:THROTTLE:SECONDS, several with commas between them".into(),
            Self::NoRuns { known, .. } if known.is_empty() => {
                "add a run: layload learn LOG --mesh MESH --job JOB --add survived --steps 5000:1:600".into()
            }
            Self::NoRuns { known, .. } => format!("give --family; the log has: {}", known.join("; ")),
        }
    }
}
