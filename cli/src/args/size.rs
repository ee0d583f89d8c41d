use std::path::PathBuf;

use clap::{Args, ValueEnum};
use layload_core::job::BuildDirection;
use layload_core::report::Varied;

use super::{FieldCells, RodArguments, build_direction, numbers};

/// What is looked for.
#[derive(Debug, Args)]
pub(crate) struct SizeArguments {
    /// Thickness to vary; default: all that the part has.
    #[arg(long, value_enum, value_name = "PARTS", value_delimiter = ',')]
    pub(crate) vary: Vec<VariedName>,
    /// Least and greatest factor on the thickness of the mesh.
    #[arg(long, value_name = "LOW,HIGH", value_parser = numbers::<2>, default_value = "0.6,1.8")]
    pub(crate) range: [f64; 2],
    /// Material families to try besides that of the job.
    #[arg(long, value_name = "NAMES", value_delimiter = ',')]
    pub(crate) materials: Vec<String>,
    /// Build directions to try besides that of the job, separated by semicolons.
    #[arg(
        long,
        value_name = "WAYS",
        value_parser = build_direction,
        value_delimiter = ';',
        allow_hyphen_values = true,
        default_value = "flat;on-edge;upright"
    )]
    pub(crate) directions: Vec<BuildDirection>,
    /// Numbers of walls to try besides that of the job.
    #[arg(long, value_name = "COUNTS", value_delimiter = ',')]
    pub(crate) wall_counts: Vec<u32>,
    /// Draw mass against life of all candidates, as .svg.
    #[arg(long, value_name = "FILE", help_heading = "Files")]
    pub(crate) svg: Option<PathBuf>,
    /// Replace a file that is there already.
    #[arg(long, help_heading = "Files")]
    pub(crate) overwrite: bool,
    #[command(flatten)]
    pub(crate) field: FieldCells,
    #[command(flatten)]
    pub(crate) rod: RodArguments,
}

/// Which thickness is varied.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum VariedName {
    /// The whole rod by one factor.
    Whole,
    /// The shank alone.
    Shank,
    /// The small end alone.
    SmallEnd,
    /// The big end alone.
    BigEnd,
    /// Shank and both ends, each by its own factor.
    Each,
    /// The crown of a piston.
    Crown,
}

impl From<VariedName> for Varied {
    fn from(name: VariedName) -> Self {
        match name {
            VariedName::Whole => Self::Whole,
            VariedName::Shank => Self::Shank,
            VariedName::SmallEnd => Self::SmallEnd,
            VariedName::BigEnd => Self::BigEnd,
            VariedName::Each => Self::Each,
            VariedName::Crown => Self::Crown,
        }
    }
}
