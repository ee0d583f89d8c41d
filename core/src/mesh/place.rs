use std::fmt;

use nalgebra::Point3;

/// A point of the file, in its own coordinates, for messages.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Coordinates in millimetres.
    pub mm: [f64; 3],
}

impl From<&Point3<f64>> for Place {
    fn from(point: &Point3<f64>) -> Self {
        Self { mm: [point.x * 1e3, point.y * 1e3, point.z * 1e3] }
    }
}

impl fmt::Display for Place {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "x {:.2}, y {:.2}, z {:.2} mm", self.mm[0], self.mm[1], self.mm[2])
    }
}
