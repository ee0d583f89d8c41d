use super::error::StressError;

/// Stress and deflection of a round plate under even pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateResult {
    /// Radial bending stress at the edge, on the loaded side, Pa; tension positive. Zero where the edge turns freely.
    pub edge_stress: f64,
    /// Bending stress in the middle, alike in every direction, on the side away from the pressure, Pa.
    pub center_stress: f64,
    /// Deflection of the middle, m, away from the pressure.
    pub center_deflection: f64,
}

impl PlateResult {
    /// The greater of the two stresses, Pa.
    pub fn greatest_stress(&self) -> f64 {
        self.edge_stress.abs().max(self.center_stress.abs())
    }
}

/// A round flat plate of even thickness, thin against its radius and bending little against its thickness: a crown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoundPlate {
    radius: f64,
    thickness: f64,
    modulus: f64,
    poisson_ratio: f64,
}

impl RoundPlate {
    /// From radius and thickness (m), Young's modulus (Pa) and Poisson's ratio, 0 to 0.5.
    pub fn new(radius: f64, thickness: f64, modulus: f64, poisson_ratio: f64) -> Result<Self, StressError> {
        let radius = StressError::positive("plate radius", radius)?;
        let thickness = StressError::positive("plate thickness", thickness)?;
        let modulus = StressError::positive("Young's modulus", modulus)?;
        let poisson_ratio = StressError::poisson_ratio(poisson_ratio)?;
        Ok(Self { radius, thickness, modulus, poisson_ratio })
    }

    /// Bending stiffness `D = E t³ / (12 (1 - nu²))`, N m.
    pub fn bending_stiffness(&self) -> f64 {
        self.modulus * cube(self.thickness) / (12.0 * (1.0 - self.poisson_ratio * self.poisson_ratio))
    }

    /// Edge clamped: edge stress `3 p a² / (4 t²)`, centre stress `3 (1 + nu) p a² / (8 t²)`, centre deflection
    /// `p a^4 / (64 D)` (Roark's Formulas for Stress and Strain, flat circular plates; pressure in Pa).
    pub fn clamped(&self, pressure: f64) -> PlateResult {
        let load = self.load(pressure);
        PlateResult {
            edge_stress: 0.75 * load,
            center_stress: 0.375 * (1.0 + self.poisson_ratio) * load,
            center_deflection: self.deflection_scale(pressure),
        }
    }

    /// Edge simply supported: centre stress `3 (3 + nu) p a² / (8 t²)`, centre deflection
    /// `(5 + nu) p a^4 / (64 (1 + nu) D)` (Roark's Formulas for Stress and Strain; pressure in Pa).
    pub fn supported(&self, pressure: f64) -> PlateResult {
        let nu = self.poisson_ratio;
        PlateResult {
            edge_stress: 0.0,
            center_stress: 0.375 * (3.0 + nu) * self.load(pressure),
            center_deflection: (5.0 + nu) / (1.0 + nu) * self.deflection_scale(pressure),
        }
    }

    /// Edge held by a share of the moment of a clamp, 0 to 1: what is between the two by superposition.
    pub fn held(&self, pressure: f64, share: f64) -> PlateResult {
        let (clamped, supported) = (self.clamped(pressure), self.supported(pressure));
        let between = |free: f64, fast: f64| free + share * (fast - free);
        PlateResult {
            edge_stress: between(supported.edge_stress, clamped.edge_stress),
            center_stress: between(supported.center_stress, clamped.center_stress),
            center_deflection: between(supported.center_deflection, clamped.center_deflection),
        }
    }

    fn load(&self, pressure: f64) -> f64 {
        let slenderness = self.radius / self.thickness;
        pressure * slenderness * slenderness
    }

    fn deflection_scale(&self, pressure: f64) -> f64 {
        let square = self.radius * self.radius;
        pressure * square * square / (64.0 * self.bending_stiffness())
    }
}

fn cube(x: f64) -> f64 {
    x * x * x
}
