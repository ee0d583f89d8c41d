//! What a job can be said by on the command line.

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use layload_core::job::{BuildDirection, NamedPose};
use layload_core::material::MoistureState;
use layload_core::{LengthUnit, PartWord, Strokes};

use super::unit::{bar, celsius, duration_s, grams, mm, percent, rpm};

/// What every question about a rod takes.
#[derive(Debug, Args)]
pub(crate) struct RodArguments {
    /// STL file of the part, binary or ASCII.
    pub(crate) mesh: PathBuf,
    /// Print the whole report as JSON.
    #[arg(long)]
    pub(crate) json: bool,
    #[command(flatten)]
    pub(crate) job: JobArguments,
}

/// The job: a file, numbers, or a file with some numbers overridden.
#[derive(Debug, Args)]
pub(crate) struct JobArguments {
    /// Job file in TOML: engine, print, material, duty.
    #[arg(long, short, value_name = "FILE")]
    pub(crate) job: Option<PathBuf>,
    /// Read files that a job, a log or a study names from any folder, not only from its own.
    #[arg(long)]
    pub(crate) any_folder: bool,
    /// Steady speed at open throttle, instead of the duty of the job.
    #[arg(long, short, value_name = "RPM", value_parser = rpm, allow_negative_numbers = true)]
    pub(crate) rpm: Option<f64>,
    /// Material family; `layload materials` lists them.
    #[arg(long, short, value_name = "NAME")]
    pub(crate) material: Option<String>,
    /// Material card file, as layload fit writes it; instead of a family.
    #[arg(long, value_name = "FILE", conflicts_with = "material")]
    pub(crate) card: Option<PathBuf>,
    /// Build direction: flat, on-edge, upright, or a vector in mesh coordinates.
    #[arg(long, short = 'd', value_name = "x,y,z", value_parser = build_direction, allow_hyphen_values = true)]
    pub(crate) build_direction: Option<BuildDirection>,
    /// Temperature of the running part, °C.
    #[arg(long, value_name = "C", value_parser = celsius, allow_hyphen_values = true)]
    pub(crate) temperature_c: Option<f64>,
    /// Water in the plastic.
    #[arg(long, value_enum, value_name = "STATE")]
    pub(crate) moisture: Option<Moisture>,
    /// Running time the part should reach, with its unit: 90s, 90min or 2h.
    #[arg(long, short, value_name = "TIME", value_parser = duration_s, conflicts_with = "wanted_life_h")]
    pub(crate) life: Option<f64>,
    /// The same in hours.
    #[arg(long, value_name = "HOURS", allow_negative_numbers = true)]
    pub(crate) wanted_life_h: Option<f64>,
    /// Cylinder bore, mm.
    #[arg(long, value_parser = mm, value_name = "MM", help_heading = "Engine", allow_hyphen_values = true)]
    pub(crate) bore_mm: Option<f64>,
    /// Stroke, mm.
    #[arg(long, value_parser = mm, value_name = "MM", help_heading = "Engine", allow_hyphen_values = true)]
    pub(crate) stroke_mm: Option<f64>,
    /// Piston, rings and pin together, g.
    #[arg(long, value_parser = grams, value_name = "G", help_heading = "Engine", allow_hyphen_values = true)]
    pub(crate) reciprocating_mass_g: Option<f64>,
    /// Compression ratio.
    #[arg(long, value_name = "RATIO", help_heading = "Engine", allow_negative_numbers = true)]
    pub(crate) compression_ratio: Option<f64>,
    /// Highest absolute cylinder pressure, bar.
    #[arg(long, value_parser = bar, value_name = "BAR", help_heading = "Engine", allow_negative_numbers = true)]
    pub(crate) peak_pressure_bar: Option<f64>,
    /// Strokes of the working cycle.
    #[arg(long, value_enum, value_name = "COUNT", help_heading = "Engine")]
    pub(crate) strokes: Option<StrokeCount>,
    /// Beads along every outline.
    #[arg(long, value_name = "N", help_heading = "Print", allow_negative_numbers = true)]
    pub(crate) walls: Option<u32>,
    /// Width of a bead, mm.
    #[arg(long, value_parser = mm, value_name = "MM", help_heading = "Print", allow_negative_numbers = true)]
    pub(crate) bead_width_mm: Option<f64>,
    /// Layer height, mm.
    #[arg(long, value_parser = mm, value_name = "MM", help_heading = "Print", allow_negative_numbers = true)]
    pub(crate) layer_height_mm: Option<f64>,
    /// Density of the inside, per cent.
    #[arg(long, value_parser = percent, value_name = "PERCENT", help_heading = "Print", allow_negative_numbers = true)]
    pub(crate) infill_percent: Option<f64>,
    /// Unit of the coordinates in the mesh.
    #[arg(long, value_enum, value_name = "UNIT", help_heading = "Mesh")]
    pub(crate) mesh_unit: Option<MeshUnit>,
    /// Which body of a file of several, by its number in the list they bring.
    #[arg(long, value_name = "N", help_heading = "Mesh")]
    pub(crate) body: Option<u32>,
    /// What the part is, when recognition needs help.
    #[arg(long, value_enum, value_name = "KIND", help_heading = "Mesh")]
    pub(crate) part: Option<PartName>,
    /// Direction from skirt to crown of a piston by hand.
    #[arg(long, value_name = "x,y,z", value_parser = numbers::<3>, help_heading = "Mesh", allow_hyphen_values = true)]
    pub(crate) crown_direction: Option<[f64; 3]>,
    /// A point of a piston's axis and its outer diameter by hand, mm.
    #[arg(long, value_name = "x,y,z,d", value_parser = numbers::<4>, help_heading = "Mesh", allow_hyphen_values = true)]
    pub(crate) piston_body: Option<[f64; 4]>,
    /// A point of a piston's pin axis and the bore's diameter by hand, mm.
    #[arg(long, value_name = "x,y,z,d", value_parser = numbers::<4>, help_heading = "Mesh", allow_hyphen_values = true)]
    pub(crate) pin_bore: Option<[f64; 4]>,
    /// Small-end bore by hand: centre and diameter, mm.
    #[arg(long, value_name = "x,y,z,d", value_parser = numbers::<4>, help_heading = "Mesh", allow_hyphen_values = true)]
    pub(crate) small_end: Option<[f64; 4]>,
    /// Big-end bore by hand: centre and diameter, mm.
    #[arg(long, value_name = "x,y,z,d", value_parser = numbers::<4>, help_heading = "Mesh", allow_hyphen_values = true)]
    pub(crate) big_end: Option<[f64; 4]>,
    /// Direction of the bore axes by hand.
    #[arg(long, value_name = "x,y,z", value_parser = numbers::<3>, help_heading = "Mesh", allow_hyphen_values = true)]
    pub(crate) pin_axis: Option<[f64; 3]>,
}

/// Water in the plastic.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum Moisture {
    /// Dried and kept dry.
    Dry,
    /// As in a room at 50 % humidity.
    Conditioned,
}

impl From<Moisture> for MoistureState {
    fn from(moisture: Moisture) -> Self {
        match moisture {
            Moisture::Dry => Self::Dry,
            Moisture::Conditioned => Self::Conditioned,
        }
    }
}

/// What the part is.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum PartName {
    /// A connecting rod.
    Rod,
    /// A piston.
    Piston,
    /// A part of any kind, by places, holds and loads in the job file.
    Any,
}

impl From<PartName> for PartWord {
    fn from(name: PartName) -> Self {
        match name {
            PartName::Rod => Self::Rod,
            PartName::Piston => Self::Piston,
            PartName::Any => Self::Any,
        }
    }
}

/// Parts for which a job is written.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum FormName {
    /// A connecting rod.
    Rod,
    /// A piston.
    Piston,
    /// A mount: a part of any kind that is held at one place and shaken at another.
    Mount,
}

/// Strokes of the working cycle.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum StrokeCount {
    /// Fires every turn.
    Two,
    /// Fires every second turn.
    Four,
}

impl From<StrokeCount> for Strokes {
    fn from(count: StrokeCount) -> Self {
        match count {
            StrokeCount::Two => Self::Two,
            StrokeCount::Four => Self::Four,
        }
    }
}

/// Unit of the coordinates in the mesh.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum MeshUnit {
    /// mm.
    Millimetre,
    /// 10 mm.
    Centimetre,
    /// 25.4 mm.
    Inch,
    /// 1000 mm.
    Metre,
}

impl From<MeshUnit> for LengthUnit {
    fn from(unit: MeshUnit) -> Self {
        match unit {
            MeshUnit::Millimetre => Self::Millimetre,
            MeshUnit::Centimetre => Self::Centimetre,
            MeshUnit::Inch => Self::Inch,
            MeshUnit::Metre => Self::Metre,
        }
    }
}

pub(super) fn build_direction(text: &str) -> Result<BuildDirection, String> {
    match text {
        "flat" => Ok(BuildDirection::Named(NamedPose::Flat)),
        "on-edge" => Ok(BuildDirection::Named(NamedPose::OnEdge)),
        "upright" => Ok(BuildDirection::Named(NamedPose::Upright)),
        _ => numbers::<3>(text)
            .map(BuildDirection::Vector)
            .map_err(|reason| format!("{reason}, flat, on-edge or upright")),
    }
}

pub(super) fn numbers<const N: usize>(text: &str) -> Result<[f64; N], String> {
    let read: Option<Vec<f64>> = text.split(',').map(|word| word.trim().parse().ok()).collect();
    read.filter(|list| list.iter().all(|n| n.is_finite()))
        .and_then(|list| list.try_into().ok())
        .ok_or_else(|| format!("expected {N} numbers with commas between them"))
}
