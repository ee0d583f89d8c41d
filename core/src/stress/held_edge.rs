use super::error::StressError;

/// A round plate on a cylindrical wall of the same stuff or a softer one: a crown on its ring belt.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeldEdge {
    /// Radius of the free plate, m.
    pub radius: f64,
    /// Thickness of the plate, m.
    pub thickness: f64,
    /// Thickness of the wall, m.
    pub wall: f64,
    /// Young's modulus of the wall over that of the plate.
    pub stiffness: f64,
    /// Poisson's ratio.
    pub poisson_ratio: f64,
}

/// What the corner between plate and wall gives beside the wall itself, from a finite-element library (plates of 0.1 to
/// 0.5 radii in thickness on walls of 0.1 to 0.5 radii, `tests/reference/crown`): a factor on the wall's own turning, and
/// turning with the first and the fourth power of thickness over radius.
const CORNER: (f64, f64, f64) = (1.3, 0.5, 12.0);

/// A softer wall gives more than in proportion, because it lets the edge move outward too (same library).
const SOFTER: f64 = 1.5;

impl HeldEdge {
    /// Share of a clamp's edge moment, p a² / 8, that the wall holds, 0 to 1.
    ///
    /// Plate and wall turn alike where they meet: the plate by `p a³ / (8 D (1 + nu)) - M a / (D (1 + nu))`, a long
    /// cylinder whose edge stays round by `M / (2 b D_w)`, `b⁴ = 3 (1 - nu²) / (R² h²)` (Timoshenko & Woinowsky-Krieger,
    /// Theory of Plates and Shells, circular plates and cylindrical shells), with the corner's own give.
    pub fn share(&self) -> Result<f64, StressError> {
        let radius = StressError::positive("plate radius", self.radius)?;
        let thickness = StressError::positive("plate thickness", self.thickness)?;
        let nu = StressError::poisson_ratio(self.poisson_ratio)?;
        if self.wall <= 0.0 || self.stiffness <= 0.0 {
            return Ok(0.0);
        }
        let middle = radius + 0.5 * self.wall;
        let ratio = thickness / self.wall;
        let decay = libm::pow(3.0 * (1.0 - nu * nu), 0.25) / (middle * self.wall).sqrt();
        let wall = (1.0 + nu) * ratio * ratio * ratio / (2.0 * decay * radius);
        let slender = thickness / radius;
        let corner = CORNER.1 * slender + CORNER.2 * slender * slender * slender * slender;
        // A stiffer wall is taken as no better, which is severe.
        let softer = libm::pow(self.stiffness.min(1.0), SOFTER);
        Ok(1.0 / (1.0 + (CORNER.0 * wall + corner) / softer))
    }
}
