use std::any::Any;
use std::sync::Arc;

use nalgebra::{Point3, Vector3};

use super::facet_use::facet_use;
use super::loaded::LoadedRod;
use super::prepared::PreparedRod;
use super::report::bores;
use super::trial::TrialRod;
use super::walls::walled;
use crate::Error;
use crate::drawing::{Side, Viewed};
use crate::job::NamedPose;
use crate::kind::{Checkable, Kind, LoadedPart, Measures, Question, Trials, Walled};
use crate::mesh::Mesh;
use crate::part::{Frame, PartKind, Rod};
use crate::report::{BoreReport, Varied};

impl Kind for Rod {
    fn kind(&self) -> PartKind {
        PartKind::ConnectingRod
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

    fn center_distance(&self) -> Option<f64> {
        Some(self.center_distance)
    }

    fn painted_by_sections(&self) -> bool {
        true
    }

    fn usual_pose(&self) -> NamedPose {
        NamedPose::USUAL_OF_RODS
    }

    /// A rod lies, its small end on the left.
    fn sides(&self) -> [Viewed; 3] {
        let (x, y, z) = (Vector3::x(), Vector3::y(), Vector3::z());
        [(Side::AlongPins, x, y), (Side::AcrossPins, x, z), (Side::Along, -z, y)]
    }

    fn walled(&self) -> Walled<'_> {
        walled(self)
    }

    fn regions(&self) -> &'static [&'static str] {
        &["small end", "big end", "shank"]
    }

    /// The shank lies between the bores, as in the model; what is as near to a bore as its surface belongs to the eye.
    fn region_at(&self, point: &Point3<f64>) -> Option<&'static str> {
        const OUTSIDE: f64 = 1.15;
        Some(if point.x < OUTSIDE * self.small_end.radius() {
            "small end"
        } else if point.x > self.center_distance - OUTSIDE * self.big_end.radius() {
            "big end"
        } else {
            "shank"
        })
    }

    fn varied(&self) -> &'static [Varied] {
        &[Varied::Whole, Varied::Shank, Varied::SmallEnd, Varied::BigEnd, Varied::Each]
    }

    fn measures(self: Arc<Self>, _: &LoadedPart, _: &Question<'_>) -> Result<Measures, Error> {
        Ok(Measures { thickness: Some(widths(&self)), ..Measures::default() })
    }

    fn size_note(&self) -> &'static str {
        "Thickness is along the pins, bores and their seats with it: the profile, and with it the walls round the bores, \
         stays. Let parts of different thickness slope into each other; a step is a notch."
    }

    fn prepare(self: Arc<Self>, file: &LoadedPart, question: &Question<'_>) -> Result<Box<dyn Checkable>, Error> {
        Ok(Box::new(PreparedRod::new(self, file, question)?))
    }

    fn facet_demand(self: Arc<Self>, file: &LoadedPart, question: &Question<'_>) -> Result<Option<Vec<f64>>, Error> {
        let prepared = PreparedRod::new(self, file, question)?;
        let loaded = LoadedRod::new(&prepared)?;
        let warm = loaded.warmed()?;
        Ok(Some(facet_use(&prepared.rod, &warm.stressing, &prepared.scenario, &warm.temperatures)))
    }

    fn trials(self: Arc<Self>, file: &LoadedPart, stations: usize) -> Box<dyn Trials> {
        Box::new(TrialRod::new(self, file, stations))
    }

    fn as_any(self: Arc<Self>) -> Arc<dyn Any + Send + Sync> {
        self
    }
}

/// Greatest extent along the pins of small end, shank and big end, m.
fn widths(rod: &Rod) -> [f64; 3] {
    let edges = [rod.small_end.radius(), rod.center_distance - rod.big_end.radius()];
    let mut reach = [(f64::INFINITY, f64::NEG_INFINITY); 3];
    for point in rod.mesh.points() {
        let which = edges.partition_point(|edge| *edge < point.x);
        reach[which] = (reach[which].0.min(point.z), reach[which].1.max(point.z));
    }
    // A prismatic shank has no corner of its own; its ends lie beyond the bores' edges.
    let whole = reach.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |w, r| (w.0.min(r.0), w.1.max(r.1)));
    reach.map(|(low, high)| if high > low { high - low } else { whole.1 - whole.0 })
}
