use nalgebra::{Matrix3, Matrix6, Point3, Vector3, Vector6};

use crate::any::patch::Patch;
use crate::field::FieldModel;
use crate::verdict::field::Pressing;

/// A pressure of so many Pa on a place.
#[derive(Debug)]
pub(crate) struct EvenPressure {
    pub(crate) patch: Patch,
    pub(crate) pressure: f64,
}

impl Pressing for EvenPressure {
    fn facets(&self) -> &[usize] {
        &self.patch.facets
    }

    fn pressure(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> f64 {
        if self.patch.holds(point, normal) { self.pressure } else { 0.0 }
    }
}

/// A force and a moment brought into a place as by a body that is bonded to it: force per area changes evenly over it.
#[derive(Debug)]
pub(crate) struct Bonded {
    patch: Patch,
    middle: Point3<f64>,
    /// At the middle, Pa, and its change with place, Pa/m.
    even: Vector3<f64>,
    turn: Vector3<f64>,
}

impl Bonded {
    /// `None` where the place cannot take such a moment: it has no extent.
    pub(crate) fn new(model: &FieldModel, patch: Patch, force: &Vector3<f64>, moment: &Vector3<f64>) -> Option<Self> {
        let surface = model.surface(&patch.facets);
        let (mut area, mut first) = (0.0, Vector3::zeros());
        for (point, along) in surface.points() {
            area += along.norm();
            first += point.coords * along.norm();
        }
        if area <= 0.0 {
            return None;
        }
        let middle = Point3::from(first / area);
        let mut second = Matrix3::zeros();
        for (point, along) in surface.points() {
            let arm = point - middle;
            second += (Matrix3::identity() * arm.norm_squared() - arm * arm.transpose()) * along.norm();
        }
        let mut system = Matrix6::identity();
        system.fixed_view_mut::<3, 3>(0, 0).copy_from(&(Matrix3::identity() * area));
        system.fixed_view_mut::<3, 3>(3, 3).copy_from(&second);
        let wanted = Vector6::new(force.x, force.y, force.z, moment.x, moment.y, moment.z);
        let turn =
            if moment.norm() > 0.0 { system.lu().solve(&wanted)?.fixed_rows::<3>(3).into() } else { Vector3::zeros() };
        Some(Self { patch, middle, even: force / area, turn })
    }
}

impl Pressing for Bonded {
    fn facets(&self) -> &[usize] {
        &self.patch.facets
    }

    fn pressure(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> f64 {
        -normal.dot(&self.traction(point, normal))
    }

    fn traction(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> Vector3<f64> {
        if self.patch.holds(point, normal) {
            self.even + self.turn.cross(&(point - self.middle))
        } else {
            Vector3::zeros()
        }
    }
}
