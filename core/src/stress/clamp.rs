use super::error::StressError;

/// A printed part squeezed by studs: the cap of a split big end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clamp {
    /// Force per length of all studs together, N/m: E A / l of each, added.
    pub stud_stiffness: f64,
    /// Area under squeeze, m².
    pub area: f64,
    /// Clamped length of plastic, m.
    pub length: f64,
    /// Young's modulus of the plastic at the temperature, Pa.
    pub modulus: f64,
}

impl Clamp {
    fn checked(self) -> Result<Self, StressError> {
        StressError::positive("stiffness of the studs", self.stud_stiffness)?;
        StressError::positive("clamped area", self.area)?;
        StressError::positive("clamped length", self.length)?;
        StressError::positive("Young's modulus", self.modulus)?;
        Ok(self)
    }

    /// Preload left, N, of the `preload` at assembly: stud and plastic keep their common length, the plastic creeps.
    ///
    /// `F/k + F l/(A E) + l e(F/A) = F_0/k + F_0 l/(A E) + growth`, found by halving. `growth` is what the plastic grows
    /// by heat beyond the studs over the clamped length, m (negative where studs grow more). `creep_strain` gives the
    /// creep strain at a steady squeeze (Pa, positive) after the time of interest; the stress that is left counts as if
    /// it had acted all the time. Nothing is left when the gap opens.
    pub fn relaxed_preload(
        self,
        preload: f64,
        growth: f64,
        creep_strain: impl Fn(f64) -> f64,
    ) -> Result<f64, StressError> {
        let clamp = self.checked()?;
        let preload = StressError::not_negative("preload", preload)?;
        let growth = StressError::finite("growth by heat", growth)?;
        let give = 1.0 / clamp.stud_stiffness + clamp.length / (clamp.area * clamp.modulus);
        let shut = preload * give + growth;
        if shut <= 0.0 {
            return Ok(0.0);
        }
        let (mut low, mut high) = (0.0, shut / give);
        for _ in 0..100 {
            let force = f64::midpoint(low, high);
            let taken = force * give + clamp.length * creep_strain(force / clamp.area).max(0.0);
            if taken < shut {
                low = force;
            } else {
                high = force;
            }
        }
        Ok(f64::midpoint(low, high))
    }
}
