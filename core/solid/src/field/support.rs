use std::collections::BTreeMap;

use nalgebra::{Matrix6, Point3, SVector, Vector3, Vector6};

use super::element::CellMatrix;
use super::error::FieldError;
use super::model::FieldModel;
use super::rigid::RigidMotions;
use crate::field::surface;

/// How part of the surface is held.
#[derive(Debug, Clone, PartialEq)]
pub struct Support {
    /// Facets it holds.
    pub facets: Vec<usize>,
    /// In which directions.
    pub hold: Hold,
    /// Force per area and displacement, Pa/m; `None` for as good as rigid.
    pub bedding: Option<f64>,
}

/// Directions in which a support holds, and where to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Hold {
    /// Every displacement is kept at zero.
    Clamped,
    /// The displacement along a unit vector is kept at zero.
    Along(Vector3<f64>),
    /// The displacement away from an axis is kept at a value: a pressed-in ring or bush.
    Radial {
        /// A point of the axis, m.
        point: Point3<f64>,
        /// Its direction.
        axis: Vector3<f64>,
        /// Displacement away from the axis, m.
        outward: f64,
    },
    /// A round pin that only pushes, without friction. It stays where it is and the part moves.
    Pin {
        /// A point of the bore's axis, m.
        point: Point3<f64>,
        /// Its direction.
        axis: Vector3<f64>,
        /// Radius of the bore less that of the pin, m.
        clearance: f64,
    },
}

/// One point of a support as a spring.
#[derive(Debug, Clone)]
pub(super) struct Spring {
    /// How the corners' displacements make the one it feels.
    pub(super) reach: SVector<f64, 24>,
    pub(super) point: Point3<f64>,
    pub(super) direction: Vector3<f64>,
    pub(super) area: f64,
    /// N/m.
    pub(super) stiffness: f64,
    /// Displacement at which it is slack, m.
    pub(super) slack: f64,
    /// Whether it takes only displacements below `slack`.
    pub(super) one_sided: bool,
    pub(super) active: bool,
}

/// Springs of all supports by cell.
#[derive(Debug, Clone, Default)]
pub(super) struct Springs {
    pub(super) by_cell: BTreeMap<[usize; 3], Vec<Spring>>,
}

/// Bedding of a rigid support over Young's modulus by the edge of a cell: its give is that of a thirtieth of a cell.
const RIGID: f64 = 30.0;

impl Springs {
    pub(super) fn new(model: &FieldModel, supports: &[Support]) -> Result<Self, FieldError> {
        let mut springs = Self::default();
        for support in supports {
            springs.add(model, support)?;
        }
        Ok(springs)
    }

    /// Adds the springs of one support.
    pub(super) fn add(&mut self, model: &FieldModel, support: &Support) -> Result<(), FieldError> {
        let points = surface::points(&model.mesh, &model.voxels, &support.facets);
        if points.is_empty() {
            return Err(FieldError::NoSurface { what: "support" });
        }
        let stiffest = model.stiffness.matrix().diagonal().amax();
        let edge = libm::cbrt(model.voxels.grid().cell_volume());
        let bedding = match support.bedding {
            Some(bedding) => FieldError::positive("the bedding of a support", bedding)?.min(RIGID * stiffest / edge),
            None => RIGID * stiffest / edge,
        };
        for point in points {
            let area = point.area.norm();
            let (directions, slack, one_sided) = held(&support.hold, &point.point);
            for direction in directions {
                let reach = SVector::from_fn(|dof, _| point.weights[dof / 3] * direction[dof % 3]);
                let spring = Spring {
                    reach,
                    point: point.point,
                    direction,
                    area,
                    stiffness: bedding * area,
                    slack,
                    one_sided,
                    active: true,
                };
                self.by_cell.entry(point.cell).or_default().push(spring);
            }
        }
        Ok(())
    }

    fn active(&self) -> impl Iterator<Item = (&[usize; 3], &Spring)> {
        self.by_cell.iter().flat_map(|(cell, springs)| springs.iter().map(move |s| (cell, s))).filter(|(_, s)| s.active)
    }

    /// What a cell's active springs add to its stiffness, if any do.
    pub(super) fn stiffness(&self, cell: [usize; 3]) -> Option<CellMatrix> {
        let springs = self.by_cell.get(&cell)?;
        let mut sum = None;
        for spring in springs.iter().filter(|spring| spring.active) {
            sum.get_or_insert_with(CellMatrix::zeros).ger(spring.stiffness, &spring.reach, &spring.reach, 1.0);
        }
        sum
    }

    /// Adds the forces of active springs that are slack elsewhere than at zero.
    pub(super) fn add_forces(&self, model: &FieldModel, forces: &mut [f64]) {
        for (cell, spring) in self.active().filter(|(_, spring)| spring.slack != 0.0) {
            model.scatter(*cell, &(spring.reach * (spring.stiffness * spring.slack)), forces);
        }
    }

    /// How the active springs resist each motion of the whole part.
    pub(super) fn resistance(&self, model: &FieldModel, motions: &RigidMotions) -> Matrix6<f64> {
        let mut sum = Matrix6::zeros();
        for (_, spring) in self.active() {
            let place = motions.place(model.voxels.grid(), &spring.point);
            let turn = place.cross(&spring.direction) / motions.lever();
            let d = &spring.direction;
            let felt = Vector6::new(d.x, d.y, d.z, turn.x, turn.y, turn.z);
            sum.ger(spring.stiffness, &felt, &felt, 1.0);
        }
        sum
    }

    /// Whether any spring only pushes.
    pub(super) fn one_sided(&self) -> bool {
        self.by_cell.values().flatten().any(|spring| spring.one_sided)
    }

    /// Sets which one-sided springs push by the rule `pushes(cell, spring)`; returns how many changed.
    pub(super) fn choose(&mut self, mut pushes: impl FnMut(&[usize; 3], &Spring) -> bool) -> usize {
        let mut changed = 0;
        for (cell, springs) in &mut self.by_cell {
            for spring in springs.iter_mut().filter(|spring| spring.one_sided) {
                let now = pushes(cell, spring);
                changed += usize::from(now != spring.active);
                spring.active = now;
            }
        }
        changed
    }
}

fn held(hold: &Hold, at: &Point3<f64>) -> (Vec<Vector3<f64>>, f64, bool) {
    let away = |point: &Point3<f64>, axis: &Vector3<f64>| {
        let axis = axis.try_normalize(0.0).unwrap_or_default();
        let arm = at - point;
        (arm - axis * axis.dot(&arm)).try_normalize(0.0).into_iter().collect()
    };
    match hold {
        Hold::Clamped => ((0..3).map(|axis| Vector3::ith(axis, 1.0)).collect(), 0.0, false),
        Hold::Along(direction) => (direction.try_normalize(0.0).into_iter().collect(), 0.0, false),
        Hold::Radial { point, axis, outward } => (away(point, axis), *outward, false),
        Hold::Pin { point, axis, clearance } => (away(point, axis), -clearance, true),
    }
}
