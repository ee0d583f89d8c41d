use std::path::PathBuf;

use clap::{Args, ValueEnum};
use layload_core::DutyStep;
use layload_core::bench::RunOutcome;

use super::unit::{day, duration_s};
use super::{FieldCells, JobArguments};

/// A bench log, and the part and job that it is asked about.
#[derive(Debug, Args)]
pub(crate) struct LearnArguments {
    /// The log: one run a line. It is begun by the first --add.
    pub(crate) log: PathBuf,
    /// STL file of the part.
    #[arg(long, value_name = "FILE")]
    pub(crate) mesh: PathBuf,
    /// Family of parts; default: kind of part and material.
    #[arg(long, value_name = "NAME")]
    pub(crate) family: Option<String>,
    /// Take back the run of this line, counted from 1: it stays in the log and counts no longer.
    #[arg(long, value_name = "LINE", group = "change")]
    pub(crate) take_back: Option<usize>,
    /// Print everything as JSON.
    #[arg(long)]
    pub(crate) json: bool,
    /// Write the card that knows the log, as .toml.
    #[arg(long, value_name = "FILE", help_heading = "Files")]
    pub(crate) card_out: Option<PathBuf>,
    /// Replace a file that is there already; never the log.
    #[arg(long, help_heading = "Files")]
    pub(crate) overwrite: bool,
    #[command(flatten)]
    pub(crate) field: FieldCells,
    #[command(flatten)]
    pub(crate) run: RunArguments,
    #[command(flatten)]
    pub(crate) job: JobArguments,
}

/// A run to add.
#[derive(Debug, Args)]
#[command(next_help_heading = "A run to add")]
pub(crate) struct RunArguments {
    /// Add a run of this part that ended so.
    #[arg(long, value_enum, value_name = "OUTCOME", group = "change")]
    pub(crate) add: Option<OutcomeName>,
    /// What it ran since new: RPM:THROTTLE:SECONDS, steps separated by commas; default: the job's duty once.
    #[arg(long, value_name = "STEPS", value_parser = step, value_delimiter = ',', requires = "add")]
    pub(crate) steps: Vec<DutyStep>,
    /// Cut off an unfinished last line before adding or taking back; without this option such a log stays unchanged.
    #[arg(long, requires = "change")]
    pub(crate) cut_unfinished: bool,
    /// Running time at which it was last seen whole, with its unit; it failed between then and the end.
    #[arg(long, value_name = "TIME", value_parser = duration_s, requires = "add")]
    pub(crate) sound: Option<f64>,
    /// Measured temperature of the part, °C.
    #[arg(long, value_name = "C", allow_hyphen_values = true, requires = "add")]
    pub(crate) measured_c: Option<f64>,
    /// Where it failed.
    #[arg(long, value_name = "WORDS", requires = "add")]
    pub(crate) place: Option<String>,
    /// How it failed.
    #[arg(long, value_name = "WORDS", requires = "add")]
    pub(crate) how: Option<String>,
    /// Day of the run.
    #[arg(long, value_name = "DAY", value_parser = day, requires = "add")]
    pub(crate) date: Option<String>,
    /// Anything else.
    #[arg(long, value_name = "WORDS", requires = "change")]
    pub(crate) note: Option<String>,
}

/// How a run ended.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum OutcomeName {
    /// Whole when it was stopped.
    Survived,
    /// Broken, molten or out of shape.
    Failed,
}

impl From<OutcomeName> for RunOutcome {
    fn from(name: OutcomeName) -> Self {
        match name {
            OutcomeName::Survived => Self::Survived,
            OutcomeName::Failed => Self::Failed,
        }
    }
}

fn step(text: &str) -> Result<DutyStep, String> {
    let numbers: Option<Vec<f64>> = text.split(':').map(|word| word.trim().parse().ok()).collect();
    match numbers.as_deref() {
        Some(&[rpm, throttle, seconds]) => Ok(DutyStep { rpm, throttle, seconds }),
        _ => Err("expected RPM:THROTTLE:SECONDS, as 5000:1:600".into()),
    }
}
