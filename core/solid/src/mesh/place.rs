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
        // Rounded here, and zero added, so that no `-0.00` is shown.
        let [x, y, z] = self.mm.map(|c| (c * 100.0).round() / 100.0 + 0.0);
        write!(out, "x {x:.2}, y {y:.2}, z {z:.2} mm")
    }
}
