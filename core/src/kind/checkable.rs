use std::any::Any;
use std::fmt::Debug;
use std::sync::Arc;

use nalgebra::{Point3, Vector3};

use super::{Changes, Correction, LoadedPart, Lying, Measures, Question, SpeedRange, Trials, Walled, Watcher};
use crate::Error;
use crate::drawing::Viewed;
use crate::job::{NamedPose, Scenario};
use crate::mesh::Mesh;
use crate::orient::Facing;
use crate::part::{Frame, PartKind};
use crate::print::PrintSettings;
use crate::report::{BoreReport, Report, SweepPoint, Varied};
use crate::verdict::field::FieldRequest;
use crate::verdict::{NamedStrength, SpeedLimit, Uncertainty};

/// A recognised part: what a question needs of it before there is a job.
pub trait Kind: Debug + Send + Sync {
    /// What it is called.
    fn kind(&self) -> PartKind;

    /// Its surface, in its own frame.
    fn mesh(&self) -> &Mesh;

    /// Where that frame lies in the file.
    fn frame(&self) -> &Frame;

    /// Its bores.
    fn bores(&self) -> Vec<BoreReport>;

    /// Distance between the axes of two bores, m, where it has two.
    fn center_distance(&self) -> Option<f64> {
        None
    }

    /// Whether every facet can be painted without a stress field.
    fn painted_by_sections(&self) -> bool {
        false
    }

    /// Whether it has no sections, so that every answer needs the stress field.
    fn by_field_alone(&self) -> bool {
        false
    }

    /// How it is usually printed.
    fn usual_pose(&self) -> NamedPose;

    /// How it lies on the bed, in words.
    fn lying(&self) -> Lying {
        Lying::ROD
    }

    /// The sides it is drawn from.
    fn sides(&self) -> [Viewed; 3];

    /// What its walls are measured on, and what their places are called.
    fn walled(&self) -> Walled<'_>;

    /// Words of its regions, as a user writes them of a broken part.
    fn regions(&self) -> &'static [&'static str];

    /// The region that a point of its frame is in, where the kind tells.
    fn region_at(&self, _point: &Point3<f64>) -> Option<&'static str> {
        None
    }

    /// Thicknesses of it that can be varied, in the order in which they are tried.
    fn varied(&self) -> &'static [Varied];

    /// Sizes as the mesh has them.
    ///
    /// # Errors
    ///
    /// Where the job does not belong to the part.
    fn measures(self: Arc<Self>, file: &LoadedPart, question: &Question<'_>) -> Result<Measures, Error>;

    /// What a search for sizes does not see of such a part, in sentences.
    fn size_note(&self) -> &'static str;

    /// Joins it with a job; `file` is what was read it from.
    ///
    /// # Errors
    ///
    /// Where the job is incomplete or does not belong to the part.
    fn prepare(self: Arc<Self>, file: &LoadedPart, question: &Question<'_>) -> Result<Box<dyn Checkable>, Error>;

    /// For every facet its stress over what it bears for the wanted life, where the section model of the kind knows that.
    ///
    /// # Errors
    ///
    /// As [`Kind::prepare`], [`Checkable::load`] and [`Loaded::warm`].
    fn facet_demand(self: Arc<Self>, _file: &LoadedPart, _question: &Question<'_>) -> Result<Option<Vec<f64>>, Error> {
        Ok(None)
    }

    /// The part for many jobs and sizes; `stations` is how finely it is cut.
    fn trials(self: Arc<Self>, file: &LoadedPart, stations: usize) -> Box<dyn Trials>;

    /// For those who know the kind.
    fn as_any(self: Arc<Self>) -> Arc<dyn Any + Send + Sync>;
}

/// A part with its job.
pub trait Checkable: Send + Sync {
    /// The job in SI units.
    fn scenario(&self) -> &Scenario;

    /// Print settings in the frame of the part.
    fn print(&self) -> &PrintSettings;

    /// Cuts and measures it as printed, and works out what drives it.
    ///
    /// # Errors
    ///
    /// Where sections or loads cannot be worked out.
    fn load(&self) -> Result<Box<dyn Loaded + '_>, Error>;
}

/// A part as printed with its loads.
pub trait Loaded: Send + Sync {
    /// Mass of its plastic, kg.
    fn plastic(&self) -> f64;

    /// Solves the stress field, so that what follows answers for it.
    ///
    /// # Errors
    ///
    /// Where the field cannot be solved or the watcher stops it.
    fn solve_field(&mut self, request: FieldRequest, facets: bool, watcher: &mut dyn Watcher) -> Result<(), Error>;

    /// Stresses and temperatures of the duty.
    ///
    /// # Errors
    ///
    /// Where the heat has no answer.
    fn warm(&self) -> Result<Box<dyn Warm + '_>, Error>;

    /// Strength with layers stacked along another unit vector of the part's frame, everything worked out again: by the
    /// stress field where one is asked for, else by sections alone.
    ///
    /// # Errors
    ///
    /// As [`Checkable::load`], [`Loaded::solve_field`] and [`Loaded::warm`].
    fn printed_along(
        &self,
        build: &Vector3<f64>,
        field: Option<FieldRequest>,
        watcher: &mut dyn Watcher,
    ) -> Result<NamedStrength, Error>;
}

/// A part stressed and warmed at its duty.
pub trait Warm: Send + Sync {
    /// Life, temperature and what fails first at many top speeds.
    ///
    /// # Errors
    ///
    /// Where the heat has no answer at one of them.
    fn swept(&self, range: &SpeedRange) -> Result<Vec<SweepPoint>, Error>;

    /// Strength in other directions by sections, where the kind has a way to it.
    fn facing(&self) -> Option<Box<dyn Facing + '_>> {
        None
    }

    /// What the stress field found over the sections, for trials to take.
    ///
    /// # Errors
    ///
    /// Where the kind has no sections to raise, or the heat has no answer.
    fn correction(&self) -> Result<Correction, Error> {
        Err(Error::FieldOnly)
    }

    /// Holds stresses against the material.
    ///
    /// # Errors
    ///
    /// Where stresses or heat have no answer.
    fn assess(&self) -> Result<Box<dyn Assessed + '_>, Error>;
}

/// What goes into a report beside the part's own.
#[derive(Debug, Clone)]
pub struct Answers {
    /// Title of the job.
    pub title: Option<String>,
    /// Highest speed.
    pub limit: SpeedLimit,
    /// How sure the margin is.
    pub uncertainty: Uncertainty,
    /// What changes of the input do.
    pub changes: Changes,
}

/// A part held against its material at its duty.
pub trait Assessed: Send + Sync {
    /// How fast the engine may turn for the wanted life.
    ///
    /// # Errors
    ///
    /// Where the heat has no answer at a speed looked at.
    fn highest_speed(&self) -> Result<SpeedLimit, Error>;

    /// How sure the margin is.
    fn uncertainty(&self) -> Uncertainty;

    /// What changes of the input do.
    fn changes(&self) -> Changes;

    /// The report.
    ///
    /// # Errors
    ///
    /// Where a law of the material has no answer for the duty.
    fn report(&self, answers: Answers) -> Result<Report, Error>;

    /// For every facet its stress over what it bears for the wanted life: by the stress field where that painted, else by
    /// sections where the kind does so.
    fn facets(&self) -> Option<Vec<Option<f64>>>;
}
