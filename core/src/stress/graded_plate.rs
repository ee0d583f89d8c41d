use super::error::StressError;

/// A plate whose stiffness changes through its thickness, as that of a plastic with a hot side does.
///
/// Plane sections stay plane, so the strain is linear through the thickness and the stress at a depth is the moment times
/// `E (z - z0) / integral E (z - z0)² dz`, z0 the stiffness-weighted middle (transformed section; Timoshenko, Strength of
/// Materials). With one stiffness throughout it is `12 z / t³`.
#[derive(Debug, Clone, PartialEq)]
pub struct GradedPlate {
    depths: Vec<f64>,
    moduli: Vec<f64>,
    neutral: f64,
    second: f64,
}

impl GradedPlate {
    /// From depths (m, rising, at least two) with the modulus at each (any unit: only ratios count), linear in between.
    pub fn new(depths: &[f64], moduli: &[f64]) -> Result<Self, StressError> {
        let rising = depths.windows(2).all(|pair| pair[1] > pair[0]);
        if depths.len() < 2 || depths.len() != moduli.len() || !rising {
            let (quantity, range) = ("number of depths of a plate", "two or more, rising, each with a modulus");
            return Err(StressError::OutOfRange { quantity, range, value: depths.len() as f64 });
        }
        for &modulus in moduli {
            StressError::positive("modulus at a depth", modulus)?;
        }
        let (mut area, mut first, mut second) = (0.0, 0.0, 0.0);
        for (z, e) in depths.windows(2).zip(moduli.windows(2)) {
            let width = z[1] - z[0];
            // Simpson's rule is exact for the cubic e z².
            let middle = (f64::midpoint(z[0], z[1]), f64::midpoint(e[0], e[1]));
            for (at, modulus, weight) in [(z[0], e[0], 1.0), (middle.0, middle.1, 4.0), (z[1], e[1], 1.0)] {
                let share = weight * width / 6.0 * modulus;
                area += share;
                first += share * at;
                second += share * at * at;
            }
        }
        let neutral = first / area;
        let second = second - area * neutral * neutral;
        Ok(Self { depths: depths.to_vec(), moduli: moduli.to_vec(), neutral, second })
    }

    /// Stress at each depth per unit of bending moment per length, Pa/N; a positive moment pulls the deeper side.
    pub fn stress_per_moment(&self) -> Vec<f64> {
        let at = self.depths.iter().zip(&self.moduli);
        at.map(|(depth, modulus)| modulus * (depth - self.neutral) / self.second).collect()
    }

    /// Depth of the neutral plane, m.
    pub fn neutral_depth(&self) -> f64 {
        self.neutral
    }

    /// Thickness of the even plate of the stiffest material that bends as little, m.
    pub fn equal_thickness(&self) -> f64 {
        let stiffest = self.moduli.iter().copied().fold(0.0, f64::max);
        libm::cbrt(12.0 * self.second / stiffest)
    }
}
