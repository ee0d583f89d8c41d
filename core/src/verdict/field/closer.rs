use nalgebra::{Point3, Vector3, Vector6};

use super::points::SurfacePoints;
use super::solved::SolvedCases;
use crate::field::{Accuracy, FieldError, SurfaceForce, Zoom};
use crate::numeric::map_in_order;

/// Cells of the solved grid from a place to where its window is cut.
const REACH: f64 = 4.5;

/// Edge of a cell of the solved grid over that in the window.
const FINER: usize = 3;

/// Cells of the solved grid from the cut within which the window's stress is not looked at.
const CUT: f64 = 1.5;

/// Points within so many cells of the window show how the surface turns.
const NEAR: f64 = 3.0;

/// A surface that turns inward by more than this over them, rad, has fewer than fifteen cells in its radius: a fillet, whose
/// peak the window still smooths down by a twentieth to a fifth, and which is seen once more.
const TURN: f64 = 0.2;

/// Of the window: its forces are far smaller than those that hold its cut.
const RESIDUAL: f64 = 1e-7;

/// A point of the surface seen with finer cells.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Closer {
    pub(crate) point: Point3<f64>,
    pub(crate) normal: Vector3<f64>,
    /// Pa.
    pub(crate) stress: Vector6<f64>,
}

/// What a window shows.
struct Seen {
    points: Vec<Closer>,
    /// How it moves.
    displacement: Vec<f64>,
}

impl SolvedCases {
    /// Of the stress all over the surface near a point, when there is so much of each case, the one that `worst` picks: from
    /// a window with finer cells whose cut faces move as the solved part does, and where the surface turns inward within few
    /// of those, as at a fillet, from a window of that window. `None` where that is not to be had.
    pub(crate) fn closer(
        &self,
        state: &[f32],
        at: &Point3<f64>,
        worst: impl Fn(&[Closer]) -> Option<Closer>,
    ) -> Result<Option<Closer>, FieldError> {
        let Some(displacement) = self.displacement(state) else { return Ok(None) };
        let zoom = Zoom::new(self.model(), at, REACH, FINER)?;
        let edge = self.edge / FINER as f64;
        let seen = self.seen(&zoom, &displacement, state, edge)?;
        let Some(found) = worst(&seen.points) else { return Ok(None) };
        if !turns_inward(&found, &seen.points, NEAR * edge) {
            return Ok(Some(found));
        }
        let again = Zoom::new(&zoom.model, &found.point, REACH, FINER)?;
        let seen = self.seen(&again, &seen.displacement, state, edge / FINER as f64)?;
        Ok(worst(&seen.points).or(Some(found)))
    }

    /// Stress all over the surface within a window with cells of `edge`, m, cut out of what moves by `displacement`.
    fn seen(&self, zoom: &Zoom<'_>, displacement: &[f64], state: &[f32], edge: f64) -> Result<Seen, FieldError> {
        let fine = &zoom.model;
        let load = self.load(fine, state)?;
        let held = zoom.held(displacement, self.supports())?;
        let accuracy = Accuracy { residual: RESIDUAL, ..Accuracy::default() };
        let solution = held.solve(&load, &accuracy, None)?;
        let strains = held.strains(&solution, &load);
        let points = SurfacePoints::near(self.model().mesh(), fine.voxels(), edge, |point| zoom.within(point, CUT));
        let found = map_in_order(points.len(), |n| {
            let (point, normal) = points[n];
            let traction = self.traction(state, &points[n]);
            let stress = strains.stress_at(&point, &normal, SurfaceForce::Known(traction))?;
            Some(Closer { point, normal, stress })
        });
        let points = found.into_iter().flatten().collect();
        Ok(Seen { points, displacement: solution.displacements().to_vec() })
    }
}

/// Whether the surface turns inward within `reach` (m) of a place.
fn turns_inward(at: &Closer, points: &[Closer], reach: f64) -> bool {
    points.iter().any(|other| {
        let away = other.point - at.point;
        away.norm() < reach && away.dot(&at.normal) > 0.0 && at.normal.dot(&other.normal) < libm::cos(TURN)
    })
}
