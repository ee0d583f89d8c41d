use std::path::PathBuf;

use clap::Args;

use super::{FieldCells, JobArguments};

/// A part to run up on the bench.
#[derive(Debug, Args)]
pub(crate) struct PlanArguments {
    /// STL file of the part.
    pub(crate) mesh: PathBuf,
    /// Prints there are to spend.
    #[arg(long, value_name = "N", default_value_t = layload_core::PART_COUNTS.2)]
    pub(crate) parts: usize,
    /// Print the whole plan as JSON.
    #[arg(long)]
    pub(crate) json: bool,
    /// Calibrate from this bench log first: the runs of this family of parts.
    #[arg(long, value_name = "FILE")]
    pub(crate) log: Option<PathBuf>,
    /// Family of parts in the log; default: kind of part and material.
    #[arg(long, value_name = "NAME", requires = "log")]
    pub(crate) family: Option<String>,
    #[command(flatten)]
    pub(crate) field: FieldCells,
    #[command(flatten)]
    pub(crate) job: JobArguments,
}
