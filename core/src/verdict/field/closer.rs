use nalgebra::{Point3, Vector3, Vector6};

use super::cases::{RodField, SolvedModel};
use super::points::SurfacePoints;
use crate::field::{Accuracy, FieldError, ForceField, InertiaRelief, Load, SurfaceForce, Zoom};
use crate::threads::map_in_order;

/// Cells of the solved grid from a place to where its window is cut.
const REACH: f64 = 4.5;

/// Edge of a cell of the solved grid over that in the window.
const FINER: usize = 3;

/// Cells of the solved grid from the cut within which the window's stress is not looked at.
const CUT: f64 = 1.5;

/// Points within so many cells of the window show how the surface turns.
const NEAR: f64 = 3.0;

/// A surface that turns inward by more than this over them, rad, has fewer than six cells in its radius: a fillet, whose peak
/// the window still smooths down by a fifth, and which is seen once more. (Rounder ones are left: they stay a sixth low.)
const TURN: f64 = 0.5;

/// Of the window: its forces are far smaller than those that hold its cut.
const RESIDUAL: f64 = 1e-7;

/// A point of the surface seen with finer cells.
#[derive(Debug, Clone, Copy)]
pub(super) struct Closer {
    pub(super) point: Point3<f64>,
    pub(super) normal: Vector3<f64>,
    /// Pa.
    pub(super) stress: Vector6<f64>,
}

/// What a window shows.
struct Seen {
    points: Vec<Closer>,
    /// How it moves.
    displacement: Vec<f64>,
}

impl RodField {
    /// Of the stress all over the surface near a point, when there is so much of each case, the one that `worst` picks: from
    /// a window with finer cells whose cut faces move as the solved rod does, and where the surface turns inward within few of
    /// those, as at a fillet, from a window of that window. `None` where that is not to be had.
    pub(super) fn closer(
        &self,
        state: &[f32],
        at: &Point3<f64>,
        worst: impl Fn(&[Closer]) -> Option<Closer>,
    ) -> Result<Option<Closer>, FieldError> {
        let Some(displacement) = self.solved.displacement(state) else { return Ok(None) };
        let zoom = Zoom::new(&self.solved.model, at, REACH, FINER)?;
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
        let SolvedModel { model, density, .. } = &self.solved;
        let fine = &zoom.model;
        let spin = f64::from(state[self.turning]);
        let away = ForceField {
            at_origin: Vector3::zeros(),
            gradient: nalgebra::Matrix3::from_diagonal(&[spin, spin, 0.0].into()),
        };
        let relief = InertiaRelief::field(model, &self.solved.acceleration(state));
        let mut load = Load::none(fine).body(fine, *density, &away)?.body(fine, *density, &relief)?;
        let warmth = f64::from(state[self.turning + 1]);
        load = load.warmth(fine, |point| warmth * self.solved.warmer(point));
        let traction = |point: &Point3<f64>, normal: &Vector3<f64>| {
            let on = self.bores.iter().find_map(|solved| solved.traction(state, point, normal));
            on.unwrap_or_else(Vector3::zeros)
        };
        for solved in &self.bores {
            load = match load.clone().traction(fine, &solved.bore.facets, traction) {
                Ok(loaded) => loaded,
                // The window does not reach this bore.
                Err(FieldError::NoSurface { .. }) => load,
                Err(other) => return Err(other),
            };
        }
        let held = zoom.held(displacement);
        let accuracy = Accuracy { residual: RESIDUAL, ..Accuracy::default() };
        let solution = held.solve(&load, &accuracy, None)?;
        let strains = held.strains(&solution, &load);
        let points = SurfacePoints::near(model.mesh(), fine.voxels(), edge, |point| zoom.within(point, CUT));
        let found = map_in_order(points.len(), |n| {
            let (point, normal) = points[n];
            let stress = strains.stress_at(&point, &normal, SurfaceForce::Known(traction(&point, &normal)))?;
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
