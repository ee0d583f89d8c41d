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
    /// Length between the two that has no wall, m: between the cheeks of a fork, or over a groove.
    pub gap: f64,
    /// Angle of the circle that has a wall, radians.
    pub arc: f64,
    /// Distance between the true circle and the middle of the widest facet, m: the error of the tessellation.
    pub sagitta: f64,
    /// Root mean square distance of the corners from the fitted cylinder, m.
    pub residual: f64,
}

/// Sides of a polygon whose corners lie on a circle and whose middles lie so far within it, both m.
pub(crate) fn sides(radius: f64, sagitta: f64) -> f64 {
    let half = libm::acos((1.0 - sagitta / radius).clamp(-1.0, 1.0));
    core::f64::consts::PI / half.max(f64::MIN_POSITIVE)
}

impl Seat {
    /// Sides that the wall would have all round, each as wide as the widest there is.
    pub fn sides(&self) -> f64 {
        sides(self.radius, self.sagitta)
    }

    /// Length of its wall along the axis, m.
    pub fn depth(&self) -> f64 {
        self.to - self.from - self.gap
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

    /// The same bore with another of its seats as the one that carries.
    pub(super) fn led_by(mut self, seat: usize) -> Self {
        if seat > 0 {
            let middle = f64::midpoint(self.seats[seat].from, self.seats[seat].to);
            self.center += self.axis * middle;
            for seat in &mut self.seats {
                seat.from -= middle;
                seat.to -= middle;
            }
            self.seats[..=seat].rotate_right(1);
        }
        self
    }

    /// Where its wall begins and ends along the axis, m from its centre, over all seats.
    pub(super) fn extent(&self) -> (f64, f64) {
        let from = self.seats.iter().map(|seat| seat.from).fold(f64::INFINITY, f64::min);
        (from, self.seats.iter().map(|seat| seat.to).fold(f64::NEG_INFINITY, f64::max))
    }

    /// Diameter of the main seat, m.
    pub fn diameter(&self) -> f64 {
        2.0 * self.main().radius
    }
}
