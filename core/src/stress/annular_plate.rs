use super::error::StressError;

/// Stress and deflection of a ring land: an annular plate clamped at its inner edge and free at its outer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LandResult {
    /// Radial bending stress at the root, on the loaded side, Pa.
    pub root_stress: f64,
    /// Greatest shear stress at the root, in the middle of the thickness, Pa: 1.5 times the mean.
    pub root_shear: f64,
    /// Deflection of the free edge, m.
    pub deflection: f64,
}

/// An annular plate with its inner edge clamped and its outer edge free.
///
/// `d/dr (1/r d(r f)/dr) = V / D` for the slope f, V the shear force per length, with f = 0 at the root and no bending
/// moment at the free edge (Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, symmetrical bending of circular
/// plates; tabulated in Roark's Formulas, flat circular plates with a hole), solved here in closed form.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AnnularPlate {
    inner: f64,
    outer: f64,
    thickness: f64,
    modulus: f64,
    poisson_ratio: f64,
}

impl AnnularPlate {
    /// From inner and outer radius and thickness (m), Young's modulus (Pa) and Poisson's ratio, 0 to 0.5.
    pub fn new(inner: f64, outer: f64, thickness: f64, modulus: f64, poisson_ratio: f64) -> Result<Self, StressError> {
        let inner = StressError::positive("inner radius of a land", inner)?;
        let outer = StressError::positive("outer radius of a land", outer)?;
        if inner >= outer {
            let (inner_name, outer_name) = ("root radius of a land", "land radius");
            return Err(StressError::NotNested { inner_name, inner, outer_name, outer });
        }
        let thickness = StressError::positive("height of a land", thickness)?;
        let modulus = StressError::positive("Young's modulus", modulus)?;
        let poisson_ratio = StressError::poisson_ratio(poisson_ratio)?;
        Ok(Self { inner, outer, thickness, modulus, poisson_ratio })
    }

    /// Under an even pressure on one face, Pa.
    pub fn under_pressure(&self, pressure: f64) -> LandResult {
        self.under(pressure, 0.0)
    }

    /// Under a force along its free edge, N/m of that edge.
    pub fn under_edge_force(&self, force_per_length: f64) -> LandResult {
        self.under(0.0, force_per_length)
    }

    fn under(&self, pressure: f64, edge_force: f64) -> LandResult {
        let (nu, outer, t) = (self.poisson_ratio, self.outer, self.thickness);
        let stiffness = self.modulus * t * t * t / (12.0 * (1.0 - nu * nu));
        // In units of the outer radius: V / D = (a / r - b r) with the slope as unknown.
        let a = (0.5 * pressure * outer + edge_force) * outer * outer / stiffness;
        let b = 0.5 * pressure * outer * outer * outer / stiffness;
        let root = self.inner / outer;
        let ln = libm::log(root);
        // slope = c r + d / r + a/2 r ln r - b/8 r³; no slope at the root, no moment at 1.
        let at_root = -(0.5 * a * root * ln - 0.125 * b * root * root * root);
        let at_edge = -(0.5 * a - 0.125 * (3.0 + nu) * b);
        let determinant = -root * (1.0 - nu) - (1.0 + nu) / root;
        let c = (-at_root * (1.0 - nu) - at_edge / root) / determinant;
        let d = (root * at_edge - (1.0 + nu) * at_root) / determinant;
        let bend = c - d / (root * root) + 0.5 * a * (ln + 1.0) - 0.375 * b * root * root;
        let moment = stiffness * bend / outer;
        let rise = |r: f64| {
            let ln = libm::log(r);
            0.5 * c * r * r + d * ln + 0.25 * a * r * r * (ln - 0.5) - b * r * r * r * r / 32.0
        };
        let shear =
            0.5 * pressure * (outer * outer - self.inner * self.inner) / self.inner + edge_force * outer / self.inner;
        LandResult {
            root_stress: 6.0 * moment.abs() / (t * t) * sign(pressure + edge_force),
            root_shear: 1.5 * shear / t,
            deflection: (rise(1.0) - rise(root)).abs() * outer * sign(pressure + edge_force),
        }
    }
}

fn sign(load: f64) -> f64 {
    if load < 0.0 { -1.0 } else { 1.0 }
}
