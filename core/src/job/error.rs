use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

use crate::engine::{CrankError, CylinderError, DutyError, GasError, PressureError};
use crate::input::Help;
use crate::life::LifeError;
use crate::material::MaterialError;
use crate::print::PrintError;
use crate::stress::StressError;

use super::places::PlaceError;

/// Why a job cannot be carried out.
#[derive(Debug, Clone, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "job-")]
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
    /// Something the answer needs is not in the job.
    #[error("{what} is missing")]
    Missing {
        /// What is missing.
        what: &'static str,
        /// Key in the job file.
        key: String,
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
    /// Places, holds and loads of a part of any kind make no sense, or not on this part.
    #[error(transparent)]
    Place(#[from] PlaceError),
}

impl JobError {
    /// A short word for it that stays the same from version to version, for programs.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Fit(error) => error.into(),
            Self::Crank(error) => error.into(),
            Self::Cylinder(error) => error.into(),
            Self::Gas(error) => error.into(),
            Self::Pressure(error) => error.into(),
            Self::Duty(error) => error.into(),
            Self::Material(error) => error.into(),
            Self::Print(error) => error.into(),
            Self::Life(error) => error.into(),
            Self::Place(error) => error.into(),
            own => own.into(),
        }
    }

    /// The key of the job that it is about, as in a job file, where it is about one.
    pub fn key(&self) -> Option<&str> {
        match self {
            Self::Missing { key, .. } | Self::OutOfRange { key, .. } => Some(key),
            Self::Key { name, .. } => Some(name),
            Self::Impossible { key, .. } => Some(key),
            Self::Duty(_) => Some("duty.steps"),
            Self::Pressure(_) => Some("engine.gas.pressure_table"),
            Self::Cylinder(CylinderError::Bore { .. }) => Some("engine.bore_mm"),
            Self::Cylinder(CylinderError::CompressionRatio { .. }) => Some("engine.compression_ratio"),
            Self::Crank(CrankError::CannotTurn { .. }) => Some("engine.stroke_mm"),
            Self::Material(MaterialError::Unknown { .. }) => Some("material.name"),
            Self::Print(PrintError::NoDirection) => Some("print.build_direction"),
            Self::Place(error) => error.key(),
            _ => None,
        }
    }

    /// What the user can do about it.
    pub fn help(&self) -> Help {
        match self {
            Self::Format { .. } => Help::SeeJobFile,
            Self::Key { .. } => {
                "keys and values are those of a job file, for example part.big_end.cap.studs and 2".into()
            }
            Self::Missing { key, .. } => Help::Give { key: key.clone() },
            Self::OutOfRange { unit, key, usual, .. } => {
                let read = match *unit {
                    "1" => "it is a pure number without unit".into(),
                    unit => format!("it is read as {unit}"),
                };
                let usual = usual.as_ref().map_or_else(String::new, |usual| format!("; usual: {usual}"));
                format!("check {key}; {read}{usual}").into()
            }
            Self::Both { .. } => "leave one of them out".into(),
            Self::Impossible { key, usual, .. } => format!("look at {key} and its unit; usual: {usual}").into(),
            Self::UnknownBearing { known, .. } => {
                format!("known by ISO 15: {known}; or give bore_mm, outside_mm and width_mm").into()
            }
            Self::Fit(error) => error.help().into(),
            Self::Crank(error) => error.help().into(),
            Self::Cylinder(error) => error.help().into(),
            Self::Gas(error) => error.help().into(),
            Self::Pressure(error) => error.help().into(),
            Self::Duty(error) => error.help().into(),
            Self::Material(error) => error.help(),
            Self::Print(error) => error.help().into(),
            Self::Life(error) => error.help().into(),
            Self::Place(error) => error.help(),
        }
    }
}

/// A unit after a space, and nothing for pure numbers.
fn suffix(unit: &str) -> String {
    if unit == "1" { String::new() } else { format!(" {unit}") }
}
