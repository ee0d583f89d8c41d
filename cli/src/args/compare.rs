use std::path::PathBuf;

use clap::Args;

use super::{FieldCells, JobArguments};

/// Two revisions of one part.
#[derive(Debug, Args)]
pub(crate) struct CompareArguments {
    /// STL file of the old part.
    pub(crate) old: PathBuf,
    /// STL file of the new part; the same file to compare two jobs.
    pub(crate) new: PathBuf,
    /// Job file of the new part, where it differs from --job.
    #[arg(long, value_name = "FILE")]
    pub(crate) new_job: Option<PathBuf>,
    /// Print the whole comparison as JSON.
    #[arg(long)]
    pub(crate) json: bool,
    #[command(flatten)]
    pub(crate) field: FieldCells,
    /// Write area, wall and stress along both parts as a drawing, as .svg.
    #[arg(long, value_name = "FILE", help_heading = "Files")]
    pub(crate) svg: Option<PathBuf>,
    /// Replace a file that is there already.
    #[arg(long, help_heading = "Files")]
    pub(crate) overwrite: bool,
    /// Options of the job hold for both.
    #[command(flatten)]
    pub(crate) job: JobArguments,
}
