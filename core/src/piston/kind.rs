use std::any::Any;
use std::sync::Arc;

use nalgebra::{Point3, Vector3};

use super::prepared::PreparedPiston;
use super::report::pin_bore;
use super::trial::TrialPiston;
use super::walls::walled;
use crate::Error;
use crate::drawing::{Side, Viewed};
use crate::job::NamedPose;
use crate::kind::{Checkable, Kind, LoadedPart, Lying, Measures, Question, Trials, Walled};
use crate::mesh::Mesh;
use crate::part::{Frame, PartKind, Piston};
use crate::report::{BoreReport, Varied};

impl Kind for Piston {
    fn kind(&self) -> PartKind {
        PartKind::Piston
    }

    fn mesh(&self) -> &Mesh {
        &self.mesh
    }

    fn frame(&self) -> &Frame {
        &self.frame
    }

    fn bores(&self) -> Vec<BoreReport> {
        vec![pin_bore(self)]
    }

    fn usual_pose(&self) -> NamedPose {
        NamedPose::USUAL_OF_PISTONS
    }

    fn lying(&self) -> Lying {
        Lying::PISTON
    }

    /// A piston stands, its crown above.
    fn sides(&self) -> [Viewed; 3] {
        let (x, y, z) = (Vector3::x(), Vector3::y(), Vector3::z());
        [(Side::AlongPins, -y, x), (Side::AcrossPins, -z, x), (Side::Along, -y, -z)]
    }

    fn walled(&self) -> Walled<'_> {
        walled(self)
    }

    fn regions(&self) -> &'static [&'static str] {
        &["crown", "boss", "land", "skirt"]
    }

    /// Bosses are about as thick round the pin as its radius (common practice). What lies within the ring belt belongs to the crown,
    /// without grooves the uppermost fifth over the pin.
    fn region_at(&self, point: &Point3<f64>) -> Option<&'static str> {
        const ROOT: f64 = 0.97;
        let floor = self.grooves.iter().map(|groove| groove.floor_radius).fold(f64::INFINITY, f64::min);
        let belt = self.grooves.iter().map(|groove| groove.from).fold(0.8 * self.compression_height, f64::min);
        let to_pin = libm::hypot(point.x, point.y);
        Some(if point.x >= belt && libm::hypot(point.y, point.z) >= ROOT * floor {
            "land"
        } else if point.x >= belt {
            "crown"
        } else if to_pin <= 2.0 * self.pin.radius {
            "boss"
        } else {
            "skirt"
        })
    }

    fn varied(&self) -> &'static [Varied] {
        &[Varied::Crown]
    }

    fn measures(self: Arc<Self>, file: &LoadedPart, question: &Question<'_>) -> Result<Measures, Error> {
        let prepared = PreparedPiston::new(self, file, question)?;
        let crown = prepared.model()?.crown_thickness;
        Ok(Measures { crown: Some(crown), ..Measures::default() })
    }

    fn size_note(&self) -> &'static str {
        "A crown is made thicker on its underside. Where it meets walls and bosses is not checked; ring lands and bosses stay \
         unchanged."
    }

    fn prepare(self: Arc<Self>, file: &LoadedPart, question: &Question<'_>) -> Result<Box<dyn Checkable>, Error> {
        Ok(Box::new(PreparedPiston::new(self, file, question)?))
    }

    fn trials(self: Arc<Self>, file: &LoadedPart, _: usize) -> Box<dyn Trials> {
        Box::new(TrialPiston::new(self, file))
    }

    fn as_any(self: Arc<Self>) -> Arc<dyn Any + Send + Sync> {
        self
    }
}
