use std::path::PathBuf;

use clap::{Args, ValueEnum};
use layload_core::job::BuildDirection;
use layload_core::report::Varied;

use super::{RodArguments, build_direction, numbers};

/// What is looked for.
#[derive(Debug, Args)]
pub(crate) struct SizeArguments {
    /// Running time to reach: seconds, or a number with min or h, as 90min.
    #[arg(long, value_name = "TIME", value_parser = duration_s)]
    pub(crate) life: Option<f64>,
    /// Thickness to vary; all that the part has unless said.
    #[arg(long, value_enum, value_name = "PARTS", value_delimiter = ',')]
    pub(crate) vary: Vec<VariedName>,
    /// Least and greatest factor on the thickness of the mesh.
    #[arg(long, value_name = "LOW,HIGH", value_parser = numbers::<2>, default_value = "0.6,1.8")]
    pub(crate) range: [f64; 2],
    /// Material families on hand beside that of the job.
    #[arg(long, value_name = "NAMES", value_delimiter = ',')]
    pub(crate) materials: Vec<String>,
    /// Build directions beside that of the job, with semicolons between them.
    #[arg(
        long,
        value_name = "WAYS",
        value_parser = build_direction,
        value_delimiter = ';',
        allow_hyphen_values = true,
        default_value = "flat;on-edge;upright"
    )]
    pub(crate) directions: Vec<BuildDirection>,
    /// Numbers of walls beside that of the job.
    #[arg(long, value_name = "COUNTS", value_delimiter = ',')]
    pub(crate) wall_counts: Vec<u32>,
    /// Draw mass against life of all that was found, as .svg.
    #[arg(long, value_name = "FILE", help_heading = "Files")]
    pub(crate) svg: Option<PathBuf>,
    /// Replace a file that is there already.
    #[arg(long, help_heading = "Files")]
    pub(crate) overwrite: bool,
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

/// A time in seconds, minutes or hours, s.
pub(crate) fn duration_s(text: &str) -> Result<f64, String> {
    let text = text.trim();
    let units = [("min", 60.0), ("h", 3600.0), ("s", 1.0)];
    let (number, unit) = units
        .iter()
        .find_map(|(unit, seconds)| text.strip_suffix(unit).map(|number| (number, *seconds)))
        .unwrap_or((text, 1.0));
    match number.trim().parse::<f64>() {
        Ok(number) if number.is_finite() && number > 0.0 => Ok(number * unit),
        _ => Err("expected a time above 0: seconds, or a number with s, min or h, as 90min".into()),
    }
}
