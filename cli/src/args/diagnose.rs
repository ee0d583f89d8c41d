use std::path::PathBuf;

use clap::Args;
use layload_core::{SeenAt, SeenBreak};

use super::unit::{celsius, day, duration_s, grams, mm, rpm};
use super::{FieldCells, JobArguments};

/// A broken part, its job and what was seen.
#[derive(Debug, Args)]
pub(crate) struct DiagnoseArguments {
    /// STL file of the part as it was before.
    pub(crate) mesh: PathBuf,
    /// Print the whole report as JSON.
    #[arg(long)]
    pub(crate) json: bool,
    #[command(flatten)]
    pub(crate) seen: SeenArguments,
    #[command(flatten)]
    pub(crate) entry: EntryArguments,
    #[command(flatten)]
    pub(crate) field: FieldCells,
    #[command(flatten)]
    pub(crate) job: JobArguments,
}

/// The break and its run.
#[derive(Debug, Args)]
#[command(next_help_heading = "What was seen")]
pub(crate) struct SeenArguments {
    /// What the break looks like, separated by commas; `layload explain looks` lists the words.
    #[arg(long, value_name = "LOOKS", value_delimiter = ',')]
    pub(crate) seen: Vec<String>,
    /// Where it broke: a place in words, as "small end", or a point x,y,z in mm of the mesh file.
    #[arg(long, value_name = "PLACE", allow_hyphen_values = true)]
    pub(crate) at: Option<String>,
    /// Speed at which it broke; default: the duty of the job.
    #[arg(long, value_name = "RPM", value_parser = rpm, allow_negative_numbers = true)]
    pub(crate) speed_rpm: Option<f64>,
    /// Throttle at which it broke, 0 to 1; default with --speed-rpm: 1.
    #[arg(long, value_name = "SHARE", allow_negative_numbers = true)]
    pub(crate) throttle: Option<f64>,
    /// Running time since new, with its unit: 40s, 90min or 2h.
    #[arg(long, value_name = "TIME", value_parser = duration_s)]
    pub(crate) time: Option<f64>,
    /// Measured temperature of the part, °C.
    #[arg(long, value_name = "C", value_parser = celsius, allow_hyphen_values = true)]
    pub(crate) measured_c: Option<f64>,
    /// Mass of all its pieces, g.
    #[arg(long, value_name = "G", value_parser = grams, allow_hyphen_values = true)]
    pub(crate) weighed_g: Option<f64>,
    /// Distance between the middles of its bores, measured after the run, mm.
    #[arg(long, value_name = "MM", value_parser = mm, allow_hyphen_values = true)]
    pub(crate) bores_apart_mm: Option<f64>,
}

impl SeenArguments {
    /// Where it broke; three numbers are a point.
    pub(crate) fn place(&self) -> Option<SeenAt> {
        let text = self.at.as_deref()?;
        Some(super::job::numbers::<3>(text).map_or_else(|_| SeenAt::Words(text.into()), SeenAt::Point))
    }

    /// The break, its looks aside.
    pub(crate) fn run(&self) -> SeenBreak {
        SeenBreak {
            looks: Vec::new(),
            at: self.place(),
            rpm: self.speed_rpm,
            throttle: self.throttle,
            seconds: self.time,
            measured_c: self.measured_c,
            mass_g: self.weighed_g,
            center_distance_mm: self.bores_apart_mm,
        }
    }
}

/// The run as an entry of a log.
#[derive(Debug, Args)]
#[command(next_help_heading = "The run as an entry of a bench log")]
pub(crate) struct EntryArguments {
    /// Add the run to this bench log, with its failure mode where that is clear; --time must be given.
    #[arg(long, value_name = "FILE", requires = "time")]
    pub(crate) log: Option<PathBuf>,
    /// Family of parts; default: kind of part and material.
    #[arg(long, value_name = "NAME", requires = "log")]
    pub(crate) family: Option<String>,
    /// Day of the run.
    #[arg(long, value_name = "DAY", value_parser = day, requires = "log")]
    pub(crate) date: Option<String>,
    /// Anything else.
    #[arg(long, value_name = "WORDS", requires = "log")]
    pub(crate) note: Option<String>,
    /// Cut off an unfinished last line before adding; without this option such a log stays unchanged.
    #[arg(long, requires = "log")]
    pub(crate) cut_unfinished: bool,
}
