use super::model::{Region, Station};
use crate::load::{CycleForces, SectionForces};
use crate::numeric::greater;
use crate::verdict::{Reach, SpotStress, extremes};

/// Forces at a station over the duty, and the stresses they make in its outermost fibres and in the middle of its depth.
#[derive(Debug, Clone)]
pub(crate) struct StationForce {
    /// Least and greatest axial force, N.
    pub(crate) axial: (f64, f64),
    /// Greatest shear force either way, N.
    pub(crate) shear: f64,
    /// Greatest bending moment either way, N m.
    pub(crate) bending: f64,
    /// One for each fibre of the station; none in the eyes.
    pub(crate) fibres: Vec<SpotStress>,
    /// One for each step; none in the eyes.
    pub(crate) middle: Vec<MiddleReach>,
}

/// How far normal and shear stress in the middle of a depth reach together within one step, Pa.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct MiddleReach {
    /// Greatest of pull plus weight times shear, for each of [`WEIGHTS`].
    pulled: [f64; WEIGHTS.len()],
    /// Greatest of push plus weight times shear.
    pushed: [f64; WEIGHTS.len()],
    /// Greatest pull, push and shear, each alone.
    alone: [f64; 3],
}

const WEIGHTS: [f64; 5] = [0.25, 0.5, 1.0, 2.0, 4.0];

impl StationForce {
    /// Greatest normal and greatest shear stress of the middle of the depth over what is kept of the strength, Pa.
    pub(crate) fn reached(&self, kept: f64) -> (f64, f64) {
        let greatest = |of: fn(&MiddleReach) -> f64| self.middle.iter().map(of).fold(0.0, f64::max) / kept;
        (greatest(|reach| reach.alone[0].max(reach.alone[1])), greatest(|reach| reach.alone[2]))
    }

    pub(crate) fn of(station: &Station, plane: usize, steps: &[CycleForces<'_>]) -> Self {
        let mut found = Self {
            axial: (f64::INFINITY, f64::NEG_INFINITY),
            shear: 0.0,
            bending: 0.0,
            fibres: Vec::new(),
            middle: Vec::new(),
        };
        let mut fibres = vec![Vec::with_capacity(steps.len()); station.fibres.len()];
        for step in steps {
            let forces = step.section(plane);
            let axial = extremes(forces.axial.iter().copied());
            found.axial = (found.axial.0.min(axial.0), found.axial.1.max(axial.1));
            found.shear = greatest(&forces.shear, found.shear);
            found.bending = greatest(&forces.bending, found.bending);
            for (fibre, steps) in station.fibres.iter().zip(&mut fibres) {
                steps.push(extremes(fibre.stresses(&forces)));
            }
            if station.region == Region::Shank {
                found.middle.push(MiddleReach::of(station, &forces));
            }
        }
        found.fibres = fibres.into_iter().map(|steps| SpotStress::new(Reach { steps, rest: 0.0 })).collect();
        found
    }
}

fn greatest(values: &[f64], start: f64) -> f64 {
    values.iter().fold(start, |most, value| greater(most, value.abs()))
}

/// Normal and shear stress in the middle of a section's depth at every crank angle, Pa.
pub(crate) fn middle_path(station: &Station, forces: &SectionForces) -> Vec<(f64, f64)> {
    forces.axial.iter().zip(&forces.shear).map(|(&axial, &shear)| middle_stress(station, axial, shear)).collect()
}

fn middle_stress(station: &Station, axial: f64, shear: f64) -> (f64, f64) {
    (axial / station.makeup.stiffness.area, station.shear_factor * shear / station.section.properties.area)
}

impl MiddleReach {
    fn of(station: &Station, forces: &SectionForces) -> Self {
        let mut reach = Self::default();
        for (&axial, &shear) in forces.axial.iter().zip(&forces.shear) {
            let (normal, shear) = middle_stress(station, axial, shear);
            let (pull, push, shear) = (greater(0.0, normal), greater(0.0, -normal), shear.abs());
            for (k, weight) in WEIGHTS.iter().enumerate() {
                reach.pulled[k] = greater(reach.pulled[k], pull + weight * shear);
                reach.pushed[k] = greater(reach.pushed[k], push + weight * shear);
            }
            let [most_pull, most_push, most_shear] = reach.alone;
            reach.alone = [greater(most_pull, pull), greater(most_push, push), greater(most_shear, shear)];
        }
        reach
    }

    /// Bound on what `pull`, `push` and `shear` use of the strength per Pa together at any angle.
    pub(crate) fn within(&self, pull: f64, push: f64, shear: f64) -> f64 {
        let [most_pull, most_push, most_shear] = self.alone;
        let joint = |reach: &[f64; WEIGHTS.len()], normal: f64, most: f64| {
            let apart = normal * most + shear * most_shear;
            // A weight above the one asked for only adds shear.
            let above = WEIGHTS.iter().position(|weight| weight * normal >= shear);
            above.map_or(apart, |k| apart.min(normal * reach[k]))
        };
        joint(&self.pushed, push, most_push).max(joint(&self.pulled, pull, most_pull))
    }
}
