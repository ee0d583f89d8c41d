mod compare;
mod diagnose;
mod examples;
mod fit;
#[cfg(feature = "host")]
mod host;
mod job;
mod learn;
mod new_file;
mod plan;
mod show;
mod size;
mod study;
mod unit;

use std::path::PathBuf;

use clap::{Args, CommandFactory, FromArgMatches, Parser, Subcommand, ValueEnum};
use layload_core::FieldRequest;
use layload_core::report::ReportKind;

pub(crate) use compare::CompareArguments;
pub(crate) use diagnose::DiagnoseArguments;
pub(crate) use fit::FitArguments;
#[cfg(feature = "host")]
pub(crate) use host::{HostArguments, HostQuestion};
pub(crate) use job::{FormName, JobArguments, RodArguments};
use job::{build_direction, numbers};

pub(crate) use learn::{LearnArguments, OutcomeName};
pub(crate) use new_file::{NewJobArguments, NewStudyArguments};
pub(crate) use plan::PlanArguments;
pub(crate) use show::ShowArguments;
pub(crate) use size::SizeArguments;
pub(crate) use study::{Shard, StudyArguments};

use crate::color::ColorChoice;
use crate::text::wrap::width;

/// Checks a printed connecting rod or piston from its mesh: will it hold, for how long, what fails first.
///
/// Exit codes: 0 done and holds, 1 does not reach the wanted life, 2 bad input, 3 no fault found by sections alone, which
/// is no answer.
#[derive(Debug, Parser)]
#[command(version)]
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

impl Arguments {
    /// The command line of this process.
    pub(crate) fn read() -> Result<Self, clap::Error> {
        let mut whole = Self::whole().term_width(width());
        let mut matches = whole.try_get_matches_from_mut(std::env::args_os())?;
        Self::from_arg_matches_mut(&mut matches).map_err(|error| error.format(&mut whole))
    }

    /// Every command with its examples.
    pub(crate) fn whole() -> clap::Command {
        examples::with_examples(Self::command())
    }
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Check a connecting rod or a piston.
    ///
    /// Give a job file, or at least --stroke-mm, --bore-mm, --reciprocating-mass-g, --material and --rpm. Options override
    /// the job file; --inputs lists every value taken. The check solves the stress of the whole solid, which takes
    /// seconds.
    Check(Box<CheckArguments>),
    /// Choose which way up to print a part, and say why.
    ///
    /// Sections score every direction. The stress field then decides between the best of them and the three named ways.
    /// --quick uses sections alone.
    Directions(Box<DirectionsArguments>),
    /// Show life, temperature and what fails first against speed.
    ///
    /// All steps of the job's duty run faster and slower in proportion. The stress field is solved at the job's own duty.
    /// The exit code is 0.
    Sweep(Box<SweepArguments>),
    /// Find walls of a connecting rod or a piston that are too thin.
    ///
    /// Needs no engine. With an engine, a material and a speed it also finds walls too thin for their stress. The exit code
    /// is 0.
    Walls(Box<WallsArguments>),
    /// List the bores and flat faces of a part, to copy into a job as places.
    ///
    /// For a part that is no rod and no piston: set kind = "any" in [part] of the job, and name its places. The exit code is 0.
    Places(Box<PlacesArguments>),
    /// Compare two revisions of a part: geometry, loads, heat, life and speed.
    ///
    /// The exit code is that of the new revision.
    Compare(Box<CompareArguments>),
    /// Find the least thickness, and the material, direction and walls, that reach a wanted speed and life.
    ///
    /// The speed is that of the job or --rpm. Sections raised to the stress field of the part search; the field is solved for
    /// what the answer names. --quick uses sections alone. The exit code is 1 when no size reaches the life, 3 when one does
    /// by sections alone.
    Size(Box<SizeArguments>),
    /// Make a material card from a table of your own test pieces.
    Fit(Box<FitArguments>),
    /// Learn from a log of bench runs, and add to it.
    ///
    /// Tells what the runs say about strength and life; check --log uses it. The exit code is that of a check with it.
    /// --quick uses sections alone.
    Learn(Box<LearnArguments>),
    /// Say what caused a break, from what was seen of it.
    ///
    /// Give what is known: the looks of the break, its place, speed, time and temperature. The check of that run says what was
    /// to be expected, the looks say what it was. The exit code is 0.
    Diagnose(Box<DiagnoseArguments>),
    /// Plan a ladder of runs for a part on the bench: where to start, how to climb, what to look at, when to stop.
    ///
    /// It starts where 999 of 1000 parts live by the model, and climbs by what is learned for each part broken. No step is
    /// safe. The exit code is 0.
    Plan(Box<PlanArguments>),
    /// Run many cases: a matrix or a sample of inputs and meshes, on all cores.
    ///
    /// Results go to a folder as .csv, the effect of each input as .json. --resume continues a stopped run. Cases are
    /// answered by sections corrected by the stress field of each mesh, and some of them solved beside; quick = true in the
    /// study file asks sections alone.
    Study(Box<StudyArguments>),
    /// Get the same answers from the sandboxed plugin.
    #[cfg(feature = "host")]
    Host(Box<HostArguments>),
    /// List the material families, or print the card of one with its sources.
    Materials(MaterialsArguments),
    /// Write a job file for your engine, with every key explained.
    NewJob(NewJobArguments),
    /// Write a study file with every input explained.
    NewStudy(NewStudyArguments),
    /// Explain a word of a report or a topic; without a word, list them all.
    Explain(ExplainArguments),
    /// Print the JSON Schema of a report.
    Schema(SchemaArguments),
    /// Print the completions for a shell.
    Completions(CompletionsArguments),
    /// Print the manual page of the program or of one command.
    Man(ManArguments),
}

#[derive(Debug, Args)]
pub(crate) struct PlacesArguments {
    #[command(flatten)]
    pub(crate) rod: RodArguments,
}

#[derive(Debug, Args)]
pub(crate) struct DirectionsArguments {
    /// Number of directions over the sphere.
    #[arg(long, value_name = "N", default_value_t = layload_core::USUAL_DIRECTIONS)]
    pub(crate) count: usize,
    #[command(flatten)]
    pub(crate) field: FieldCells,
    #[command(flatten)]
    pub(crate) rod: RodArguments,
}

/// The top speeds of a sweep.
#[derive(Debug, Args)]
pub(crate) struct SpeedArguments {
    /// Lowest top speed, rpm.
    #[arg(long, value_name = "RPM", allow_negative_numbers = true)]
    pub(crate) from: f64,
    /// Highest top speed, rpm.
    #[arg(long, value_name = "RPM", allow_negative_numbers = true)]
    pub(crate) to: f64,
    /// Number of speeds.
    #[arg(long, value_name = "N", default_value_t = layload_core::SpeedRange::USUAL_COUNT)]
    pub(crate) count: usize,
}

#[derive(Debug, Args)]
pub(crate) struct SweepArguments {
    #[command(flatten)]
    pub(crate) speeds: SpeedArguments,
    #[command(flatten)]
    pub(crate) field: FieldCells,
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
    /// Command; without it the page of the whole program.
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
    /// Of diagnose --json.
    Diagnose,
    /// Of directions --json.
    Directions,
    /// Of fit --json.
    Fit,
    /// Of learn --json.
    Learn,
    /// Of plan --json.
    Plan,
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
            SchemaOf::Diagnose => Self::Diagnosis,
            SchemaOf::Directions => Self::Directions,
            SchemaOf::Fit => Self::Fit,
            SchemaOf::Learn => Self::Learn,
            SchemaOf::Plan => Self::Plan,
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
    /// List each of its values with the published results behind it, instead of the card.
    #[arg(long, requires = "name")]
    pub(crate) rows: bool,
    /// Draw its fatigue lines beside published tests, as .svg.
    #[arg(long, value_name = "FILE", requires = "name", help_heading = "Files")]
    pub(crate) svg: Option<PathBuf>,
    /// Replace a file that is there already.
    #[arg(long, help_heading = "Files")]
    pub(crate) overwrite: bool,
}

#[derive(Debug, Args)]
pub(crate) struct CheckArguments {
    /// STL files of the parts, binary or ASCII; several give a table.
    #[arg(required = true, value_name = "MESH")]
    pub(crate) meshes: Vec<PathBuf>,
    /// Print the whole report as JSON; of several meshes one report a line.
    #[arg(long)]
    pub(crate) json: bool,
    /// Calibrate from this bench log first: the runs of this family of parts.
    #[arg(long, value_name = "FILE")]
    pub(crate) log: Option<PathBuf>,
    /// Family of parts in the log; default: kind of part and material.
    #[arg(long, value_name = "NAME", requires = "log")]
    pub(crate) family: Option<String>,
    #[command(flatten)]
    pub(crate) show: ShowArguments,
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
    pub(crate) job: JobArguments,
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
    #[arg(long, conflicts_with = "quick", help_heading = "Stress field")]
    pub(crate) timings: bool,
}

/// How the stress of a part is found.
#[derive(Debug, Args)]
pub(crate) struct FieldCells {
    /// Use sections alone: takes less than a second, may find a fault, never says that a part holds.
    #[arg(long, help_heading = "Stress field")]
    quick: bool,
    /// Number of cells of the stress field; half the cell size needs eight times as many.
    #[arg(long, value_name = "N", conflicts_with = "quick", help_heading = "Stress field")]
    #[arg(default_value_t = layload_core::FieldRequest::USUAL_CELLS)]
    cells: usize,
}

impl FieldCells {
    /// What is asked of the field; none for sections alone.
    pub(crate) fn request(&self) -> Option<FieldRequest> {
        (!self.quick).then_some(FieldRequest { cells: self.cells })
    }
}
