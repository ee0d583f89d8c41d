use nalgebra::{Point3, Vector3};

/// One cylindrical surface of a bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seat {
    /// Radius of the circle through the facet corners, m.
    pub radius: f64,
    /// Where the seat begins along the bore axis, m from [`Bore::center`].
    pub from: f64,
    /// Where it ends, m.
    pub to: f64,
    /// Angle of the circle that has a wall, radians.
    pub arc: f64,
    /// Distance between the true circle and the middle of the widest facet, m: the error of the tessellation.
    pub sagitta: f64,
    /// Root mean square distance of the corners from the fitted cylinder, m.
    pub residual: f64,
}

impl Seat {
    /// Length along the axis, m.
    pub fn depth(&self) -> f64 {
        self.to - self.from
    }
}

/// A round hole: coaxial seats, the longest first.
#[derive(Debug, Clone, PartialEq)]
pub struct Bore {
    /// Point of the axis in the middle of the main seat, m, file coordinates.
    pub center: Point3<f64>,
    /// Unit vector along the axis.
    pub axis: Vector3<f64>,
    /// Its cylindrical surfaces; never empty.
    pub seats: Vec<Seat>,
}

impl Bore {
    /// The seat that carries the pin or bearing: the longest.
    pub fn main(&self) -> &Seat {
        &self.seats[0]
    }

    /// Diameter of the main seat, m.
    pub fn diameter(&self) -> f64 {
        2.0 * self.main().radius
    }
}
