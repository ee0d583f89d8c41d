use std::any::Any;
use std::sync::Arc;

use nalgebra::{Point3, Vector3};

use super::prepared::PreparedAny;
use super::report::bores;
use super::trial::TrialAny;
use crate::Error;
use crate::drawing::{Side, Viewed};
use crate::job::NamedPose;
use crate::kind::{Checkable, Kind, LoadedPart, Measures, Question, Trials, Walled};
use crate::mesh::{Mesh, Place};
use crate::part::{AnyPart, Frame, PartKind};
use crate::report::{BoreReport, Varied};
use crate::wall::Shells;

impl Kind for AnyPart {
    fn kind(&self) -> PartKind {
        PartKind::Any
    }

    fn mesh(&self) -> &Mesh {
        &self.mesh
    }

    fn frame(&self) -> &Frame {
        &self.frame
    }

    fn bores(&self) -> Vec<BoreReport> {
        bores(self)
    }

    fn by_field_alone(&self) -> bool {
        true
    }

    fn usual_pose(&self) -> NamedPose {
        NamedPose::Flat
    }

    /// As it stands in the file.
    fn sides(&self) -> [Viewed; 3] {
        let (x, y, z) = (Vector3::x(), Vector3::y(), Vector3::z());
        [(Side::AlongPins, x, y), (Side::AcrossPins, x, z), (Side::Along, y, z)]
    }

    fn walled(&self) -> Walled<'_> {
        Walled {
            shells: Shells::united(self.overlapping),
            whole_file: self.left_out.is_empty(),
            area_steps: Vec::new(),
            place: Box::new(|middle: &Point3<f64>, _, _| Place::from(middle).to_string()),
            notes: |_| vec!["Stress is not measured here; a check works it out.".into()],
        }
    }

    fn regions(&self) -> &'static [&'static str] {
        &[]
    }

    fn varied(&self) -> &'static [Varied] {
        &[]
    }

    fn measures(self: Arc<Self>, _: &LoadedPart, _: &Question<'_>) -> Result<Measures, Error> {
        Ok(Measures::default())
    }

    fn size_note(&self) -> &'static str {
        "A part of any kind has no thickness of a name."
    }

    fn prepare(self: Arc<Self>, file: &LoadedPart, question: &Question<'_>) -> Result<Box<dyn Checkable>, Error> {
        Ok(Box::new(PreparedAny::new(self, file, question)?))
    }

    fn trials(self: Arc<Self>, file: &LoadedPart, _: usize) -> Box<dyn Trials> {
        Box::new(TrialAny::new(self, file))
    }

    fn as_any(self: Arc<Self>) -> Arc<dyn Any + Send + Sync> {
        self
    }
}
