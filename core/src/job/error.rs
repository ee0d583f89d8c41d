use thiserror::Error;

use crate::engine::{CrankError, CylinderError, DutyError, GasError, PressureError};
use crate::life::LifeError;
use crate::material::MaterialError;
use crate::print::PrintError;
use crate::stress::StressError;

/// Why a job cannot be carried out.
#[derive(Debug, Clone, PartialEq, Error)]
#[non_exhaustive]
pub enum JobError {
    /// The text is not in the format, or has an unknown key.
    #[error("the job file cannot be read: {reason}")]
    Format {
        /// What the reader of the format says, with line and column.
        reason: String,
    },
    /// An entry set by its name that jobs cannot hold.
    #[error("the job cannot hold {name}: {reason}")]
    Key {
        /// Its name in a job file.
        name: String,
        /// Why not.
        reason: String,
    },
    /// Something the answer needs is neither in the job nor given as an option.
    #[error("{what} is missing")]
    Missing {
        /// What is missing.
        what: &'static str,
        /// Key in the job file.
        key: &'static str,
        /// Option on the command line.
        option: &'static str,
    },
    /// A number is out of its range.
    #[error("{what} is {value}{}, outside {low} to {high}{}", suffix(.unit), suffix(.unit))]
    OutOfRange {
        /// Which number.
        what: &'static str,
        /// What was given.
        value: f64,
        /// Unit of the numbers.
        unit: &'static str,
        /// Least accepted.
        low: f64,
        /// Most accepted.
        high: f64,
        /// Where it stands.
        key: String,
        /// What would be usual, with its unit, where that is narrower.
        usual: Option<String>,
    },
    /// Two inputs that cannot belong to one engine.
    #[error("{what} of {value} {unit} does not go with {with} of {other} {other_unit}")]
    Impossible {
        /// One of them.
        what: &'static str,
        /// Its value.
        value: f64,
        /// Its unit.
        unit: &'static str,
        /// The other.
        with: &'static str,
        /// Its value.
        other: f64,
        /// Its unit.
        other_unit: &'static str,
        /// Where the doubtful one stands.
        key: &'static str,
        /// What would be usual.
        usual: String,
    },
    /// A bearing that is not in the list.
    #[error("bearing {designation} is not known")]
    UnknownBearing {
        /// What was asked for.
        designation: String,
        /// The designations that are known.
        known: String,
    },
    /// The fit of a ring makes no sense.
    #[error(transparent)]
    Fit(#[from] StressError),
    /// Two things exclude each other.
    #[error("{first} and {second} cannot both be given")]
    Both {
        /// One of them.
        first: &'static str,
        /// The other.
        second: &'static str,
    },
    /// The crank cannot turn.
    #[error(transparent)]
    Crank(#[from] CrankError),
    /// The cylinder makes no sense.
    #[error(transparent)]
    Cylinder(#[from] CylinderError),
    /// The gas cycle makes no sense.
    #[error(transparent)]
    Gas(#[from] GasError),
    /// The pressure table makes no sense.
    #[error(transparent)]
    Pressure(#[from] PressureError),
    /// The duty makes no sense.
    #[error(transparent)]
    Duty(#[from] DutyError),
    /// The material card makes no sense.
    #[error(transparent)]
    Material(#[from] MaterialError),
    /// The print settings make no sense.
    #[error(transparent)]
    Print(#[from] PrintError),
    /// A life value makes no sense.
    #[error(transparent)]
    Life(#[from] LifeError),
}

impl JobError {
    /// What the user can do about it.
    pub fn help(&self) -> String {
        match self {
            Self::Format { .. } => "keys carry their unit, for example stroke_mm; `layload new-job FILE.toml` writes one with every key explained".into(),
            Self::Key { .. } => "keys and values are those of a job file, for example part.big_end.cap.studs and 2".into(),
            // Of the part there is enough to start with in the mesh.
            Self::Missing { key, option, .. } if key.starts_with("part.") => {
                format!("set {key} in the job file or give {option}")
            }
            Self::Missing { key, option, .. } => format!(
                "set {key} in the job file or give {option}; without a job file a check needs --stroke-mm, --bore-mm, \
                 --reciprocating-mass-g, --material and --rpm"
            ),
            Self::OutOfRange { unit, key, usual, .. } => {
                let read = match *unit {
                    "1" => "it is a pure number without unit".into(),
                    unit => format!("it is read as {unit}"),
                };
                let usual = usual.as_ref().map_or_else(String::new, |usual| format!("; usual: {usual}"));
                format!("check {key}; {read}{usual}")
            }
            Self::Both { .. } => "leave one of them out".into(),
            Self::Impossible { key, usual, .. } => format!("look at {key} and its unit; usual: {usual}"),
            Self::UnknownBearing { known, .. } => {
                format!("known by ISO 15: {known}; or give bore_mm, outside_mm and width_mm")
            }
            Self::Fit(error) => error.help(),
            Self::Crank(error) => error.help(),
            Self::Cylinder(error) => error.help(),
            Self::Gas(error) => error.help(),
            Self::Pressure(error) => error.help(),
            Self::Duty(error) => error.help(),
            Self::Material(error) => error.help(),
            Self::Print(error) => error.help(),
            Self::Life(error) => error.help(),
        }
    }
}

/// A unit after a space, and nothing for pure numbers.
fn suffix(unit: &str) -> String {
    if unit == "1" { String::new() } else { format!(" {unit}") }
}
