use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

use crate::bench::BenchError;
use crate::diagnosis::DiagnosisError;
use crate::field::FieldError;
use crate::heat::HeatError;
use crate::input::Help;
use crate::job::JobError;
use crate::kind::SpeedRange;
use crate::mesh::MeshError;
use crate::part::PartError;
use crate::print::PrintError;
use crate::question::{PART_COUNTS, USUAL_DIRECTIONS};
use crate::stress::StressError;
use crate::study::StudyError;
use crate::units::LengthUnit;

/// Why a check gave no answer. Each says in a plain sentence what is wrong; [`Error::help`] says what to do.
#[derive(Debug, Clone, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case")]
#[non_exhaustive]
pub enum Error {
    /// The mesh file.
    #[error(transparent)]
    Mesh(#[from] MeshError),
    /// The part in it.
    #[error(transparent)]
    Part(#[from] PartError),
    /// The job.
    #[error(transparent)]
    Job(#[from] JobError),
    /// The heat of the part.
    #[error(transparent)]
    Heat(#[from] HeatError),
    /// The bench log.
    #[error(transparent)]
    Bench(#[from] BenchError),
    /// The break that was told.
    #[error(transparent)]
    Diagnosis(#[from] DiagnosisError),
    /// The study.
    #[error(transparent)]
    Study(#[from] StudyError),
    /// The stress field.
    #[error(transparent)]
    Field(#[from] FieldError),
    /// The mesh is likely in another unit than millimetres.
    #[error("the part would be {length_mm:.3} mm long{}", looks_like(*length_mm, fitting))]
    LikelyUnit {
        /// Greatest length with the coordinates taken as millimetres, mm.
        length_mm: f64,
        /// The units in which it is as long as such parts are; none where no unit fits.
        fitting: Vec<LengthUnit>,
    },
    /// Too few or too many directions.
    #[error("{low} to {high} directions can be scored, not {count}")]
    DirectionCount {
        /// How many were asked for.
        count: usize,
        /// Fewest.
        low: usize,
        /// Most.
        high: usize,
    },
    /// Too few or too many speeds.
    #[error("{low} to {high} speeds can be looked at, not {count}")]
    SpeedCount {
        /// How many were asked for.
        count: usize,
        /// Fewest.
        low: usize,
        /// Most.
        high: usize,
    },
    /// No such number of prints can be planned.
    #[error("a ladder is planned for {low} to {high} parts, not {count}")]
    PartCount {
        /// How many were asked for.
        count: usize,
        /// Fewest.
        low: usize,
        /// Most.
        high: usize,
    },
    /// Speeds that do not rise from above zero.
    #[error("{from_rpm} to {to_rpm} rpm is no range of speeds")]
    SpeedRange {
        /// Lowest, rpm.
        from_rpm: f64,
        /// Highest, rpm.
        to_rpm: f64,
    },
    /// A question about rods, asked of a piston.
    #[error("this is a piston, and the question is answered for connecting rods only")]
    RodsOnly,
    /// Painting of a piston without its stress field.
    #[error("a piston is painted by its stress field, which was not asked for")]
    PaintedByField,
    /// A question of a part without sections, asked without its stress field.
    #[error(
        "this part has no sections: it is answered by its stress field alone, which was not asked for or is not used here"
    )]
    FieldOnly,
    /// Factors on thickness that make no sense.
    #[error("{low} to {high} is no range of factors on thickness")]
    FactorRange {
        /// Lowest asked for.
        low: f64,
        /// Highest asked for.
        high: f64,
        /// Least possible.
        least: f64,
        /// Most possible.
        most: f64,
    },
    /// A thickness that this part does not have.
    #[error("this part has no {varied} to make thicker or thinner")]
    NotVaried {
        /// What was asked for.
        varied: &'static str,
    },
    /// More materials, directions and walls than are looked at in one go.
    #[error("{count} ways to make the part are more than the {most} that are looked at in one go")]
    TooManyWays {
        /// How many were asked for.
        count: usize,
        /// Most.
        most: usize,
    },
    /// Two kinds of parts set side by side.
    #[error("one is a connecting rod and the other a piston")]
    DifferentParts,
    /// Stresses that cannot be worked out.
    #[error(transparent)]
    Stress(#[from] StressError),
    /// The caller asked to stop.
    #[error("stopped on request")]
    Cancelled,
}

impl Error {
    /// A short word for it that stays the same from version to version, for programs.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Mesh(error) => error.into(),
            Self::Part(error) => error.into(),
            Self::Job(error) => error.code(),
            Self::Heat(error) => error.into(),
            Self::Bench(error) => error.into(),
            Self::Diagnosis(error) => error.into(),
            Self::Study(error) => error.into(),
            Self::Field(error) => error.into(),
            Self::Stress(error) => error.into(),
            own => own.into(),
        }
    }

    /// The key of the job that it is about, as in a job file, where it is about one.
    pub fn key(&self) -> Option<&str> {
        match self {
            Self::Job(error) => error.key(),
            Self::Part(error) => error.key(),
            Self::LikelyUnit { .. } => Some("part.mesh_unit"),
            _ => None,
        }
    }

    /// What the user can do about it.
    pub fn help(&self) -> Help {
        match self {
            Self::Mesh(error) => error.help(),
            Self::Part(error) => error.help(),
            Self::Job(error) => error.help(),
            Self::Heat(error) => error.help().into(),
            Self::Bench(error) => error.help(),
            Self::Diagnosis(error) => error.help().into(),
            Self::Study(error) => error.help().into(),
            Self::Field(error) => error.help(),
            Self::LikelyUnit { fitting, .. } => Help::SayUnit { fitting: fitting.clone() },
            Self::DirectionCount { .. } => Help::Count { usual: USUAL_DIRECTIONS },
            Self::SpeedCount { .. } => Help::Count { usual: SpeedRange::USUAL_COUNT },
            Self::PartCount { .. } => {
                format!("say how many prints there are to spend; {} is usual", PART_COUNTS.2).into()
            }
            Self::SpeedRange { .. } => Help::SpeedRange,
            Self::PaintedByField | Self::FieldOnly => Help::AskField,
            Self::RodsOnly => Help::AskOfPiston,
            Self::FactorRange { least, most, .. } => {
                format!("give two rising factors between {least} and {most}, for example 0.7,1.6").into()
            }
            Self::NotVaried { .. } => {
                "a rod has whole, shank, small-end, big-end and each; a piston has its crown".into()
            }
            Self::TooManyWays { .. } => "ask for fewer materials, directions or numbers of walls at a time".into(),
            Self::DifferentParts => "compare two revisions of the same part".into(),
            Self::Stress(error) => error.help().into(),
            Self::Cancelled => "run it again".into(),
        }
    }
}

/// The units that fit, each with the length that the part would have.
fn looks_like(length_mm: f64, fitting: &[LengthUnit]) -> String {
    let each = |unit: &LengthUnit| format!("{} ({:.1} mm)", unit.plural(), length_mm * unit.metres() * 1e3);
    match fitting {
        [] => ", shorter than any rod or piston, and no other unit fits".into(),
        units => {
            format!(": its coordinates look like {}", units.iter().map(each).collect::<Vec<_>>().join(" or "))
        }
    }
}

impl From<PrintError> for Error {
    fn from(error: PrintError) -> Self {
        Self::Job(JobError::Print(error))
    }
}
