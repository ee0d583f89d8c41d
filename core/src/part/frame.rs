use nalgebra::{Isometry3, Matrix3, Point3, Rotation3, Translation3, UnitQuaternion, Vector3};

use crate::numeric::unit;

/// The coordinate frame of a part: origin at the small-end centre, `x` toward the big end, `z` along the pin axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    origin: Point3<f64>,
    x: Vector3<f64>,
    y: Vector3<f64>,
    z: Vector3<f64>,
}

impl Frame {
    /// Frame with `z` along `axis` and `x` along the part of `toward` square to it; `None` if they are parallel.
    pub fn new(origin: Point3<f64>, toward: Vector3<f64>, axis: Vector3<f64>) -> Option<Self> {
        let z = unit(&axis)?;
        let toward = unit(&toward)?;
        let beside = toward - z * z.dot(&toward);
        // Below this the two are parallel but for rounding.
        let x = if beside.norm() > 1e-9 { unit(&beside)? } else { return None };
        Some(Self { origin, x, y: z.cross(&x), z })
    }

    /// The same turned by half a turn about `x`.
    #[must_use]
    pub(super) fn turned_over(self) -> Self {
        Self { y: -self.y, z: -self.z, ..self }
    }

    /// Unit vectors of the frame in file coordinates, as rows.
    pub fn rows(&self) -> Matrix3<f64> {
        Matrix3::from_rows(&[self.x.transpose(), self.y.transpose(), self.z.transpose()])
    }

    /// File coordinates to frame coordinates.
    pub fn point(&self, point: &Point3<f64>) -> Point3<f64> {
        Point3::from(self.direction(&(point - self.origin)))
    }

    /// A direction in file coordinates seen from the frame.
    pub fn direction(&self, direction: &Vector3<f64>) -> Vector3<f64> {
        Vector3::new(self.x.dot(direction), self.y.dot(direction), self.z.dot(direction))
    }

    /// Frame coordinates to file coordinates.
    pub fn to_file(&self, point: &Point3<f64>) -> Point3<f64> {
        self.origin + self.direction_to_file(&point.coords)
    }

    /// Frame coordinates, m, to file coordinates, mm.
    pub fn to_file_mm(&self, point: &Point3<f64>) -> [f64; 3] {
        let point = self.to_file(point);
        [point.x * 1e3, point.y * 1e3, point.z * 1e3]
    }

    /// A direction in the frame seen in file coordinates.
    pub fn direction_to_file(&self, direction: &Vector3<f64>) -> Vector3<f64> {
        self.x * direction.x + self.y * direction.y + self.z * direction.z
    }

    /// The rigid motion that takes file coordinates to frame coordinates.
    pub fn motion(&self) -> Isometry3<f64> {
        let rotation = UnitQuaternion::from_rotation_matrix(&Rotation3::from_matrix_unchecked(self.rows()));
        Isometry3::from_parts(Translation3::from(rotation * -self.origin.coords), rotation)
    }
}
