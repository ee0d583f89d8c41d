use crate::section::Section;

/// An eye as the contact study knows it: a ring of one width round a bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EyeModel {
    /// Bore radius, m.
    pub radius: f64,
    /// Material beside the bore at its thinnest, m.
    pub ligament: f64,
    /// Mean thickness of the ring along the pin, m.
    pub thickness: f64,
    /// Length of the seat that the pin bears on, m.
    pub seat_depth: f64,
    /// Whether the outer half is missing.
    pub half: bool,
    /// Factor on its stress from what the ring does not show, 1 unless a stress field found more.
    pub raise: f64,
}

/// How a pin sits in its bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// Radial clearance, m; 0 for a close or pressed fit.
    pub radial_clearance: f64,
    /// Young's modulus of the eye in its plane, Pa.
    pub modulus: f64,
}

impl EyeModel {
    /// Measures the ring on the section through the bore axis and on the material at the rod's end.
    ///
    /// `center_y` is the axis in the section's plane; `end_ligament` the material beyond the bore along the rod. `None`
    /// when there is no material beside the bore.
    pub fn measured(
        section: &Section,
        center_y: f64,
        radius: f64,
        seat_depth: f64,
        end_ligament: f64,
        half: bool,
    ) -> Option<Self> {
        let beside =
            |sign: f64| section.loops.iter().flatten().map(|p| sign * (p.x - center_y)).fold(0.0, f64::max) - radius;
        let (left, right) = (beside(-1.0), beside(1.0));
        let both = left + right;
        if !(left > 0.0 && right > 0.0 && section.properties.area > 0.0) {
            return None;
        }
        let sides = left.min(right);
        let ligament = if half || end_ligament <= 0.0 { sides } else { sides.min(end_ligament) };
        Some(Self { radius, ligament, thickness: section.properties.area / both, seat_depth, half, raise: 1.0 })
    }

    /// Outer width over bore diameter.
    pub fn width_ratio(&self) -> f64 {
        1.0 + self.ligament / self.radius
    }

    /// Area of both sides of the bore, m².
    pub fn net_area(&self) -> f64 {
        2.0 * self.ligament * self.thickness
    }

    /// Looseness `E c t / P` of the pin under a force, N; 0 for a close fit.
    pub fn looseness(&self, force: f64, fit: Fit) -> f64 {
        fit.modulus * fit.radial_clearance * self.seat_depth / force.abs().max(f64::MIN_POSITIVE)
    }

    /// Mean pressure of the pin on its bore, Pa.
    pub fn pin_pressure(&self, force: f64) -> f64 {
        force.abs() / (2.0 * self.radius * self.seat_depth)
    }
}
