use nalgebra::{Matrix3, Matrix6, Vector3, Vector6};

use super::error::FieldError;
use super::load::{Footprint, ForceField, Load};
use super::model::FieldModel;
use crate::numeric::map_in_order;

/// What a free body's own mass does against any load: it is accelerated as a rigid body, and the loads together with
/// that inertia are in balance (d'Alembert; known to users of finite elements as inertia relief).
///
/// A part in motion needs no support then, and its stress is that of the true motion.
#[derive(Debug, Clone)]
pub struct InertiaRelief {
    /// Inertia of a unit acceleration: three shifts, three turns about the middle.
    bodies: Vec<Load>,
    /// Inverse of the resultants of those: three forces, three moments about the middle.
    inverse: Matrix6<f64>,
}

impl InertiaRelief {
    /// Of a model with the density of its solid material, kg/m³.
    pub fn new(model: &FieldModel, density: f64) -> Result<Self, FieldError> {
        let middle = model.middle();
        let bodies = map_in_order(6, |k| {
            let axis = Vector3::ith(k % 3, 1.0);
            let field = if k < 3 {
                ForceField::even(axis)
            } else {
                // The cross product with the axis as a matrix.
                let gradient: Matrix3<f64> = axis.cross_matrix();
                ForceField { at_origin: -(gradient * middle.coords), gradient }
            };
            Load::none(model).body(model, density, &field)
        });
        let bodies = bodies.into_iter().collect::<Result<Vec<_>, _>>()?;
        let mut resultants = Matrix6::zeros();
        for (k, body) in bodies.iter().enumerate() {
            resultants.set_column(k, &resultant(model, body));
        }
        // Turns are of the order of the square of a length beside shifts; the inverse does not mind.
        let inverse = resultants.try_inverse().ok_or(FieldError::NoVolume)?;
        Ok(Self { bodies, inverse })
    }

    /// The load with the inertia that balances it.
    #[must_use]
    pub fn balanced(&self, model: &FieldModel, load: Load) -> Load {
        // Twice, so that what rounding leaves of the balance is that of the sum alone.
        (0..2).fold(load, |load, _| {
            let factors = self.inverse * resultant(model, &load);
            load.plus_forces(model, &self.bodies, (-factors).as_slice())
        })
    }

    /// Accelerations of the part's mass that balance a load: three shifts, m/s², and three turns about the middle of the
    /// box, rad/s².
    pub(super) fn accelerations(&self, model: &FieldModel, footprint: &Footprint) -> Vector6<f64> {
        let (grid, middle) = (model.voxels.grid(), model.middle());
        let mut sum = Vector6::zeros();
        for &(place, force) in &footprint.forces {
            let (node, component) = model.lines.at(place);
            let force = Vector3::ith(component, force);
            let arm = grid.in_metres(&node.map(|n| n as f64).into()) - middle;
            let moment = arm.cross(&force);
            sum += Vector6::new(force.x, force.y, force.z, moment.x, moment.y, moment.z);
        }
        self.inverse * sum
    }

    /// Inertia of each of the six unit accelerations.
    pub(super) fn bodies(&self) -> impl Iterator<Item = &[f64]> {
        self.bodies.iter().map(|body| &body.forces[..])
    }

    /// The force per mass of accelerations about the middle of a model's box.
    pub fn field(model: &FieldModel, accelerations: &Vector6<f64>) -> ForceField {
        let shift: Vector3<f64> = accelerations.fixed_rows::<3>(0).into_owned();
        let turn: Vector3<f64> = accelerations.fixed_rows::<3>(3).into_owned();
        let gradient: Matrix3<f64> = -turn.cross_matrix();
        ForceField { at_origin: -shift - gradient * model.middle().coords, gradient }
    }
}

/// Sum of the forces, N, and of their moments about the middle, N m.
fn resultant(model: &FieldModel, load: &Load) -> Vector6<f64> {
    let middle = model.middle();
    let (mut force, mut moment) = (Vector3::zeros(), Vector3::zeros());
    model.for_each_node(|node, place| {
        let here = Vector3::from_fn(|component, _| load.forces[place[component]]);
        force += here;
        moment += (node - middle).cross(&here);
    });
    Vector6::new(force.x, force.y, force.z, moment.x, moment.y, moment.z)
}
