//! Files to start from.

use std::path::PathBuf;

use clap::Args;

use super::FormName;

#[derive(Debug, Args)]
pub(crate) struct NewJobArguments {
    /// File to write, for example engine.toml.
    pub(crate) file: PathBuf,
    /// For which part the job is.
    #[arg(long, value_enum, value_name = "KIND", default_value_t = FormName::Rod)]
    pub(crate) part: FormName,
    /// Replace a file that is there already.
    #[arg(long)]
    pub(crate) overwrite: bool,
}

#[derive(Debug, Args)]
pub(crate) struct NewStudyArguments {
    /// File to write, for example study.toml.
    pub(crate) file: PathBuf,
    /// Job of the study, as named from its folder.
    #[arg(long, short, value_name = "FILE", default_value = "engine.toml")]
    pub(crate) job: String,
    /// STL of the part, as named from its folder.
    #[arg(long, value_name = "FILE", default_value = "part.stl")]
    pub(crate) mesh: String,
    /// Replace a file that is there already.
    #[arg(long)]
    pub(crate) overwrite: bool,
}
