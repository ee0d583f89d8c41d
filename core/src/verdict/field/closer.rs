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

impl RodField {
    /// Stress all over the surface near a point when there is so much of each case, from a window with finer cells whose
    /// cut faces move as the solved rod does; empty where that is not to be had.
    pub(super) fn closer(&self, state: &[f32], at: &Point3<f64>) -> Result<Vec<Closer>, FieldError> {
        let SolvedModel { model, density, .. } = &self.solved;
        let Some(displacement) = self.solved.displacement(state) else { return Ok(Vec::new()) };
        let zoom = Zoom::new(model, at, REACH, FINER)?;
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
        let held = zoom.held(&displacement);
        let accuracy = Accuracy { residual: RESIDUAL, ..Accuracy::default() };
        let solution = held.solve(&load, &accuracy, None)?;
        let strains = held.strains(&solution, &load);
        let edge = self.edge / FINER as f64;
        let points = SurfacePoints::near(model.mesh(), fine.voxels(), edge, |point| zoom.within(point, CUT));
        let found = map_in_order(points.len(), |n| {
            let (point, normal) = points[n];
            let stress = strains.stress_at(&point, &normal, SurfaceForce::Known(traction(&point, &normal)))?;
            Some(Closer { point, normal, stress })
        });
        Ok(found.into_iter().flatten().collect())
    }
}
