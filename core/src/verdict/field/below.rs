use nalgebra::{Rotation3, Unit, Vector3};

use super::closer::Closer;
use super::corners::Corner;
use super::solved::SolvedCases;
use crate::field::{Accuracy, FieldError, FieldModel, SurfaceForce, Zoom};

/// Cells from a corner to where its window is cut, edge of a cell over that in the window, and residual: as of other windows.
const REACH: f64 = 4.5;
const FINER: usize = 3;
const RESIDUAL: f64 = 1e-7;

/// Cells between a corner and where its stress is taken: nearer, a fit of strains reaches across the corner.
const DEEP: f64 = 3.5;

/// Windows in each other at most: cells of a hundredth of those of the solved grid.
const WINDOWS: usize = 4;

/// Turns from the middle of the material in which stress is looked for, rad: pull and shear together peak beside it.
const TURNS: [f64; 5] = [0.0, -0.5, 0.5, -1.0, 1.0];

impl SolvedCases {
    /// The stress at a depth (m) below a sharp inner corner, when there is so much of each case, the one that `worst` picks of
    /// those at several turns round it and at neighbouring places along it. That far off it has a bound, and cells small
    /// beside the depth see it.
    pub(crate) fn below(
        &self,
        state: &[f32],
        corners: &[Corner],
        depth: f64,
        worst: impl Fn(&[Closer]) -> Option<usize>,
    ) -> Result<Option<Closer>, FieldError> {
        let Some(displacement) = self.displacement(state) else { return Ok(None) };
        let from = Level { model: self.model(), displacement: &displacement, edge: self.edge };
        self.deeper(&from, state, (corners, depth), &worst, WINDOWS)
    }

    fn deeper(
        &self,
        from: &Level<'_>,
        state: &[f32],
        (corners, depth): (&[Corner], f64),
        worst: &impl Fn(&[Closer]) -> Option<usize>,
        left: usize,
    ) -> Result<Option<Closer>, FieldError> {
        let Some(first) = corners.first() else { return Ok(None) };
        let zoom = Zoom::new(from.model, &first.point, REACH, FINER)?;
        let edge = from.edge / FINER as f64;
        let held = zoom.held(from.displacement, self.supports())?;
        let load = self.load(&zoom.model, state)?;
        let solution = held.solve(&load, &Accuracy { residual: RESIDUAL, ..Accuracy::default() }, None)?;
        let strains = held.strains(&solution, &load);
        let last = edge * DEEP <= depth || left <= 1;
        let taken = if last { depth } else { edge * DEEP };
        let (mut seen, mut of) = (Vec::new(), Vec::new());
        for (number, corner) in corners.iter().enumerate().filter(|(_, corner)| zoom.within(&corner.point, 1.0)) {
            for turn in TURNS {
                let turned = Rotation3::from_axis_angle(&Unit::new_unchecked(corner.along), turn) * corner.inward;
                let point = corner.point + turned * taken;
                let outward: Vector3<f64> = -turned;
                if let Some(stress) = strains.stress_at(&point, &outward, SurfaceForce::Unknown) {
                    seen.push(Closer { point, normal: outward, stress });
                    of.push(number);
                }
            }
        }
        let Some(found) = worst(&seen) else { return Ok(None) };
        if last {
            return Ok(Some(seen[found]));
        }
        // The worst place along the corner first: the next window lies round it.
        let mut next = corners.to_vec();
        next.swap(0, of[found]);
        let inside = Level { model: &zoom.model, displacement: solution.displacements(), edge };
        self.deeper(&inside, state, (&next, depth), worst, left - 1)
    }
}

/// What a window is cut out of.
struct Level<'a> {
    model: &'a FieldModel,
    displacement: &'a [f64],
    /// Of a cell, m.
    edge: f64,
}
