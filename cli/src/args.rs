mod compare;
mod fit;
mod learn;
mod size;
mod study;

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};
use layload_core::FieldRequest;
use layload_core::LengthUnit;
use layload_core::PartWord;
use layload_core::Strokes;
use layload_core::job::{BuildDirection, NamedPose};
use layload_core::material::MoistureState;
use layload_core::report::ReportKind;

pub(crate) use compare::CompareArguments;
pub(crate) use fit::FitArguments;
pub(crate) use learn::{LearnArguments, OutcomeName};
pub(crate) use size::SizeArguments;
pub(crate) use study::{Shard, StudyArguments};

use crate::color::ColorChoice;

/// Checks printed parts of small piston engines from their mesh: will it hold, for how long, what fails first.
///
/// Exit codes: 0 done and holds, 1 does not reach the wanted life, 2 bad input.
#[derive(Debug, Parser)]
#[command(version, max_term_width = 80)]
pub(crate) struct Arguments {
    /// When to colour the output.
    #[arg(
        long,
        value_enum,
        default_value_t,
        global = true,
        value_name = "WHEN",
        help = "When to colour the output; NO_COLOR is honoured"
    )]
    pub(crate) color: ColorChoice,
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Check a connecting rod or a piston.
    ///
    /// Give a job file, or at least --stroke-mm, --bore-mm, --reciprocating-mass-g, --material and --rpm; everything
    /// taken as usual is listed in the report. Options override the job file.
    Check(Box<CheckArguments>),
    /// Choose which way up to print a connecting rod, and say why.
    Directions(Box<DirectionsArguments>),
    /// Print life, temperature and what fails first against speed.
    ///
    /// The duty of the job is run faster and slower, all its steps in proportion. The exit code is 0 whatever is found.
    Sweep(Box<SweepArguments>),
    /// Find walls of a connecting rod or a piston that are too thin.
    ///
    /// Needs no engine; with one, a material and a speed in the job, walls too thin for their stress are named too. The
    /// exit code is 0 whatever is found.
    Walls(Box<WallsArguments>),
    /// Compare two revisions of a part: geometry, loads, heat, life and speed.
    ///
    /// The exit code is that of the new one.
    Compare(Box<CompareArguments>),
    /// Find the least thickness, and the material, direction and walls, that reach a wanted speed and life.
    ///
    /// The speed is that of the job or --rpm. The exit code is 1 when nothing looked at reaches it.
    Size(Box<SizeArguments>),
    /// Make a material card from a table of your own test pieces.
    Fit(Box<FitArguments>),
    /// Learn from a log of bench runs, and add to it.
    ///
    /// Says what the runs teach of strength and life, before and after; check --log uses it. The exit code is that of
    /// the part with what was learned.
    Learn(Box<LearnArguments>),
    /// Run many cases: a matrix or a sample of inputs and meshes, on all cores.
    ///
    /// Results go to a folder as .csv, and which input matters how much as .json. A run that was killed goes on with
    /// --resume.
    Study(Box<StudyArguments>),
    /// Ask a sandboxed plugin instead: the same answers from a component file.
    #[cfg(feature = "host")]
    Host(Box<HostArguments>),
    /// List the material families, or print the card of one with its sources.
    Materials(MaterialsArguments),
    /// Write a job file for a new engine, every key explained.
    NewJob(NewJobArguments),
    /// Explain a word of a report: a way to give way or a term; without a word, list them.
    Explain(ExplainArguments),
    /// Print the JSON Schema of a report.
    Schema(SchemaArguments),
    /// Print what a shell needs to complete commands and options.
    Completions(CompletionsArguments),
    /// Print the manual page, of the whole or of one command.
    Man(ManArguments),
}

#[derive(Debug, Args)]
pub(crate) struct DirectionsArguments {
    /// Directions over the sphere.
    #[arg(long, value_name = "N", default_value_t = layload_core::USUAL_DIRECTIONS)]
    pub(crate) count: usize,
    #[command(flatten)]
    pub(crate) rod: RodArguments,
}

/// The top speeds that a sweep looks at.
#[derive(Debug, Args)]
pub(crate) struct SpeedArguments {
    /// Lowest top speed, rpm.
    #[arg(long, value_name = "RPM", allow_negative_numbers = true)]
    pub(crate) from: f64,
    /// Highest top speed, rpm.
    #[arg(long, value_name = "RPM", allow_negative_numbers = true)]
    pub(crate) to: f64,
    /// Speeds looked at.
    #[arg(long, value_name = "N", default_value_t = layload_core::USUAL_SPEEDS)]
    pub(crate) count: usize,
}

#[derive(Debug, Args)]
pub(crate) struct SweepArguments {
    #[command(flatten)]
    pub(crate) speeds: SpeedArguments,
    /// Write it as a drawing, as .svg.
    #[arg(long, value_name = "FILE", help_heading = "Files")]
    pub(crate) svg: Option<PathBuf>,
    /// Replace a file that is there already.
    #[arg(long, help_heading = "Files")]
    pub(crate) overwrite: bool,
    #[command(flatten)]
    pub(crate) rod: RodArguments,
}

#[derive(Debug, Args)]
pub(crate) struct WallsArguments {
    /// Flag walls thinner than this too, mm.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    pub(crate) least_mm: Option<f64>,
    /// List the thickness of every facet in the JSON.
    #[arg(long, requires = "json")]
    pub(crate) facets: bool,
    #[command(flatten)]
    pub(crate) paint: PaintArguments,
    #[command(flatten)]
    pub(crate) rod: RodArguments,
}

/// A plugin, what it may take, and the question.
#[cfg(feature = "host")]
#[derive(Debug, Args)]
pub(crate) struct HostArguments {
    /// The component, for example target/plugin/layload.wasm.
    pub(crate) plugin: PathBuf,
    /// Memory the plugin may take, MiB (1024 unless said).
    #[arg(long, value_name = "N", global = true, help_heading = "Plugin")]
    pub(crate) memory_mib: Option<usize>,
    /// Time the plugin may take, ms (ten minutes unless said).
    #[arg(long, value_name = "N", global = true, help_heading = "Plugin")]
    pub(crate) deadline_ms: Option<u64>,
    /// Compile the plugin anew and keep nothing of it.
    #[arg(long, global = true, help_heading = "Plugin")]
    pub(crate) no_cache: bool,
    #[command(subcommand)]
    pub(crate) question: HostQuestion,
}

/// What is asked of a plugin.
#[cfg(feature = "host")]
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

#[cfg(feature = "host")]
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

#[cfg(feature = "host")]
#[derive(Debug, Args)]
pub(crate) struct HostCheckArguments {
    #[command(flatten)]
    pub(crate) field: FieldCells,
    #[command(flatten)]
    pub(crate) rod: RodArguments,
}

#[cfg(feature = "host")]
#[derive(Debug, Args)]
pub(crate) struct HostSweepArguments {
    #[command(flatten)]
    pub(crate) speeds: SpeedArguments,
    #[command(flatten)]
    pub(crate) rod: RodArguments,
}

#[cfg(feature = "host")]
#[derive(Debug, Args)]
pub(crate) struct HostWallsArguments {
    /// Flag walls thinner than this too, mm.
    #[arg(long, value_name = "MM", allow_negative_numbers = true)]
    pub(crate) least_mm: Option<f64>,
    #[command(flatten)]
    pub(crate) rod: RodArguments,
}

/// Files that show the part in colours.
#[derive(Debug, Args)]
pub(crate) struct PaintArguments {
    /// Write the part painted facet by facet, as .3mf or .ply.
    #[arg(long, value_name = "FILE", help_heading = "Files")]
    pub(crate) mesh_out: Option<PathBuf>,
    /// Write the scale of the colours, as .svg.
    #[arg(long, value_name = "FILE", help_heading = "Files")]
    pub(crate) legend_out: Option<PathBuf>,
    /// Replace files that are there already.
    #[arg(long, help_heading = "Files")]
    pub(crate) overwrite: bool,
}

impl PaintArguments {
    /// Whether anything is to be painted.
    pub(crate) fn wanted(&self) -> bool {
        self.mesh_out.is_some() || self.legend_out.is_some()
    }
}

#[derive(Debug, Args)]
pub(crate) struct NewJobArguments {
    /// File to write, for example engine.toml.
    pub(crate) file: PathBuf,
    /// For which part the job is.
    #[arg(long, value_enum, value_name = "KIND", default_value_t = PartName::Rod)]
    pub(crate) part: PartName,
    /// Replace a file that is there already.
    #[arg(long)]
    pub(crate) overwrite: bool,
}

#[derive(Debug, Args)]
pub(crate) struct ExplainArguments {
    /// The word, for example margin or buckling.
    #[arg(value_name = "TERM")]
    pub(crate) words: Vec<String>,
}

#[derive(Debug, Args)]
pub(crate) struct CompletionsArguments {
    /// Which shell.
    #[arg(value_enum)]
    pub(crate) shell: clap_complete::Shell,
}

#[derive(Debug, Args)]
pub(crate) struct ManArguments {
    /// Which command; without it the page of the whole program.
    pub(crate) command: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct SchemaArguments {
    /// Which report.
    #[arg(value_enum, default_value_t = SchemaOf::Check)]
    pub(crate) of: SchemaOf,
}

/// Reports that have a schema.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum SchemaOf {
    /// Of check --json.
    Check,
    /// Of compare --json.
    Compare,
    /// Of directions --json.
    Directions,
    /// Of fit --json.
    Fit,
    /// Of learn --json.
    Learn,
    /// Of size --json.
    Size,
    /// Of study --json.
    Study,
    /// Of sweep --json.
    Sweep,
    /// Of walls --json.
    Walls,
}

impl From<SchemaOf> for ReportKind {
    fn from(of: SchemaOf) -> Self {
        match of {
            SchemaOf::Check => Self::Check,
            SchemaOf::Compare => Self::Compare,
            SchemaOf::Directions => Self::Directions,
            SchemaOf::Fit => Self::Fit,
            SchemaOf::Learn => Self::Learn,
            SchemaOf::Size => Self::Size,
            SchemaOf::Study => Self::Study,
            SchemaOf::Sweep => Self::Sweep,
            SchemaOf::Walls => Self::Walls,
        }
    }
}

#[derive(Debug, Args)]
pub(crate) struct MaterialsArguments {
    /// Family to print, for example PA12-CF15.
    pub(crate) name: Option<String>,
    /// Draw its fatigue lines beside published tests, as .svg.
    #[arg(long, value_name = "FILE", requires = "name", help_heading = "Files")]
    pub(crate) svg: Option<PathBuf>,
    /// Replace a file that is there already.
    #[arg(long, help_heading = "Files")]
    pub(crate) overwrite: bool,
}

#[derive(Debug, Args)]
pub(crate) struct CheckArguments {
    /// Bench log whose runs of this family of parts are learned from first.
    #[arg(long, value_name = "FILE")]
    pub(crate) log: Option<PathBuf>,
    /// Family of parts in the log; the kind of part with its material unless said.
    #[arg(long, value_name = "NAME", requires = "log")]
    pub(crate) family: Option<String>,
    #[command(flatten)]
    pub(crate) field: FieldArguments,
    /// List the stress over strength of every facet in the JSON.
    #[arg(long, requires = "json")]
    pub(crate) facets: bool,
    #[command(flatten)]
    pub(crate) record: RecordArguments,
    #[command(flatten)]
    pub(crate) paint: PaintArguments,
    #[command(flatten)]
    pub(crate) rod: RodArguments,
}

/// The record of a check as files.
#[derive(Debug, Args)]
pub(crate) struct RecordArguments {
    /// Write the whole record as one page to read and print, as .html.
    #[arg(long, value_name = "FILE", help_heading = "Files")]
    pub(crate) report: Option<PathBuf>,
    /// Write the drawings of the record into a folder.
    #[arg(long, value_name = "FOLDER", help_heading = "Files")]
    pub(crate) svg: Option<PathBuf>,
    /// Write the tables of cuts and of crank angles into a folder.
    #[arg(long, value_name = "FOLDER", help_heading = "Files")]
    pub(crate) csv: Option<PathBuf>,
}

impl RecordArguments {
    /// Whether the record is wanted in any form.
    pub(crate) fn wanted(&self) -> bool {
        self.report.is_some() || self.svg.is_some() || self.csv.is_some()
    }
}

/// The stress field of a part, and how long it took.
#[derive(Debug, Args)]
pub(crate) struct FieldArguments {
    #[command(flatten)]
    pub(crate) wanted: FieldCells,
    /// Say how long each solution took.
    #[arg(long, requires = "field", help_heading = "Stress field")]
    pub(crate) timings: bool,
}

/// Whether the stress field of a part is wanted.
#[derive(Debug, Args)]
pub(crate) struct FieldCells {
    /// Solve the stress of the whole solid too: fillets, blends, ribs, pockets.
    #[arg(long, help_heading = "Stress field")]
    field: bool,
    /// Cells the part is divided into for it; twice as fine is eight times as many.
    #[arg(long, value_name = "N", requires = "field", help_heading = "Stress field")]
    #[arg(default_value_t = layload_core::USUAL_CELLS)]
    cells: usize,
}

impl FieldCells {
    /// What is asked of the field, if it is wanted.
    pub(crate) fn request(&self) -> Option<FieldRequest> {
        self.field.then_some(FieldRequest { cells: self.cells })
    }
}

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
    /// Job file in TOML.
    #[arg(long, value_name = "FILE")]
    pub(crate) job: Option<PathBuf>,
    /// Read files that a job, a log or a study names from any folder, not only from its own.
    #[arg(long)]
    pub(crate) any_folder: bool,
    /// Steady speed at open throttle, instead of the duty of the job.
    #[arg(long, value_name = "N", allow_negative_numbers = true)]
    pub(crate) rpm: Option<f64>,
    /// Material family.
    #[arg(long, value_name = "NAME")]
    pub(crate) material: Option<String>,
    /// Material card file, as layload fit writes it; instead of a family.
    #[arg(long, value_name = "FILE", conflicts_with = "material")]
    pub(crate) card: Option<PathBuf>,
    /// flat, on-edge, upright, or the direction in which layers stack in mesh coordinates.
    #[arg(long, value_name = "x,y,z", value_parser = build_direction, allow_hyphen_values = true)]
    pub(crate) build_direction: Option<BuildDirection>,
    /// Temperature of the running part, °C.
    #[arg(long, value_name = "C", allow_hyphen_values = true)]
    pub(crate) temperature_c: Option<f64>,
    /// Water in the plastic.
    #[arg(long, value_enum, value_name = "STATE")]
    pub(crate) moisture: Option<Moisture>,
    /// Running time the part should reach, hours.
    #[arg(long, value_name = "HOURS", allow_negative_numbers = true)]
    pub(crate) wanted_life_h: Option<f64>,
    /// Cylinder bore, mm.
    #[arg(long, value_name = "MM", help_heading = "Engine", allow_hyphen_values = true)]
    pub(crate) bore_mm: Option<f64>,
    /// Stroke, mm.
    #[arg(long, value_name = "MM", help_heading = "Engine", allow_hyphen_values = true)]
    pub(crate) stroke_mm: Option<f64>,
    /// Piston, rings and pin together, g.
    #[arg(long, value_name = "G", help_heading = "Engine", allow_hyphen_values = true)]
    pub(crate) reciprocating_mass_g: Option<f64>,
    /// Compression ratio.
    #[arg(long, value_name = "RATIO", help_heading = "Engine", allow_negative_numbers = true)]
    pub(crate) compression_ratio: Option<f64>,
    /// Highest absolute cylinder pressure, bar.
    #[arg(long, value_name = "BAR", help_heading = "Engine", allow_negative_numbers = true)]
    pub(crate) peak_pressure_bar: Option<f64>,
    /// Strokes of the working cycle.
    #[arg(long, value_enum, value_name = "COUNT", help_heading = "Engine")]
    pub(crate) strokes: Option<StrokeCount>,
    /// Beads along every outline.
    #[arg(long, value_name = "N", help_heading = "Print", allow_negative_numbers = true)]
    pub(crate) walls: Option<u32>,
    /// Width of a bead, mm.
    #[arg(long, value_name = "MM", help_heading = "Print", allow_negative_numbers = true)]
    pub(crate) bead_width_mm: Option<f64>,
    /// Layer height, mm.
    #[arg(long, value_name = "MM", help_heading = "Print", allow_negative_numbers = true)]
    pub(crate) layer_height_mm: Option<f64>,
    /// Density of the inside, per cent.
    #[arg(long, value_name = "PERCENT", help_heading = "Print", allow_negative_numbers = true)]
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
}

impl From<PartName> for PartWord {
    fn from(name: PartName) -> Self {
        match name {
            PartName::Rod => Self::Rod,
            PartName::Piston => Self::Piston,
        }
    }
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

fn build_direction(text: &str) -> Result<BuildDirection, String> {
    match text {
        "flat" => Ok(BuildDirection::Named(NamedPose::Flat)),
        "on-edge" => Ok(BuildDirection::Named(NamedPose::OnEdge)),
        "upright" => Ok(BuildDirection::Named(NamedPose::Upright)),
        _ => numbers::<3>(text)
            .map(BuildDirection::Vector)
            .map_err(|reason| format!("{reason}, flat, on-edge or upright")),
    }
}

fn numbers<const N: usize>(text: &str) -> Result<[f64; N], String> {
    let read: Option<Vec<f64>> = text.split(',').map(|word| word.trim().parse().ok()).collect();
    read.filter(|list| list.iter().all(|n| n.is_finite()))
        .and_then(|list| list.try_into().ok())
        .ok_or_else(|| format!("expected {N} numbers with commas between them"))
}
