//! Arguments of questions asked through the sandboxed plugin.

use std::path::PathBuf;

use clap::{Args, Subcommand};

use super::{DirectionsArguments, FieldCells, RodArguments, ShowArguments, SpeedArguments};

/// A plugin, what it may take, and the question.
#[derive(Debug, Args)]
pub(crate) struct HostArguments {
    /// The component, for example target/plugin/layload.wasm.
    pub(crate) plugin: PathBuf,
    /// Memory the plugin may take, MiB (default 1024).
    #[arg(long, value_name = "N", global = true, help_heading = "Plugin")]
    pub(crate) memory_mib: Option<usize>,
    /// Time the plugin may take, ms (default ten minutes).
    #[arg(long, value_name = "N", global = true, help_heading = "Plugin")]
    pub(crate) deadline_ms: Option<u64>,
    /// Compile the plugin anew and keep nothing of it.
    #[arg(long, global = true, help_heading = "Plugin")]
    pub(crate) no_cache: bool,
    #[command(subcommand)]
    pub(crate) question: HostQuestion,
}

/// What is asked of a plugin.
#[derive(Debug, Subcommand)]
pub(crate) enum HostQuestion {
    /// Check a connecting rod.
    Check(Box<HostCheckArguments>),
    /// Choose which way up to print a connecting rod.
    Directions(Box<DirectionsArguments>),
    /// Show life against speed.
    Sweep(Box<HostSweepArguments>),
    /// Find walls of a connecting rod that are too thin.
    Walls(Box<HostWallsArguments>),
}

impl HostQuestion {
    /// The rod it is about.
    pub(crate) fn rod(&self) -> &RodArguments {
        match self {
            Self::Check(check) => &check.rod,
            Self::Directions(directions) => &directions.rod,
            Self::Sweep(sweep) => &sweep.rod,
            Self::Walls(walls) => &walls.rod,
        }
    }
}

#[derive(Debug, Args)]
pub(crate) struct HostCheckArguments {
    #[command(flatten)]
    pub(crate) field: FieldCells,
    #[command(flatten)]
    pub(crate) show: ShowArguments,
    #[command(flatten)]
    pub(crate) rod: RodArguments,
}

#[derive(Debug, Args)]
pub(crate) struct HostSweepArguments {
    #[command(flatten)]
    pub(crate) speeds: SpeedArguments,
    #[command(flatten)]
    pub(crate) field: FieldCells,
    #[command(flatten)]
    pub(crate) rod: RodArguments,
}

#[derive(Debug, Args)]
pub(crate) struct HostWallsArguments {
    /// Flag walls thinner than this too, mm.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    pub(crate) least_mm: Option<f64>,
    #[command(flatten)]
    pub(crate) rod: RodArguments,
}
