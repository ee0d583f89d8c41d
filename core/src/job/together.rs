//! Inputs that cannot belong to one engine.

use super::{EngineScenario, JobError};

/// Far beyond what pistons with rings and pin weigh over the cube of their bore, kg/m³ (common practice, no source: 300 to
/// 3000 from plastic to steel): a slip of the unit.
const MASS_OVER_BORE: (f64, f64) = (10.0, 100_000.0);

/// Skirt over bore of anything that could be the piston of a cylinder.
const SKIRT_OVER_BORE: (f64, f64) = (0.5, 1.5);

/// Three digits that mean something.
fn rounded(value: f64) -> f64 {
    let scale = libm::pow(10.0, 3.0 - libm::ceil(libm::log10(value.abs().max(1e-12))));
    libm::round(value * scale) / scale
}

impl JobError {
    /// That a free crown given by hand is no smaller than the crown; both radii, m.
    pub(crate) fn wide_plate(given: f64, crown: f64) -> Self {
        Self::Impossible {
            what: "a free crown",
            value: rounded(2e3 * given),
            unit: "mm",
            with: "a crown",
            other: rounded(2e3 * crown),
            other_unit: "mm",
            key: "piston.plate_diameter_mm",
            usual: "less than the crown by the walls that hold it".into(),
        }
    }
}

impl EngineScenario {
    /// Whether a rod with a small-end bore (diameter, m) can be this engine's.
    pub fn fits_rod(&self, small_end: f64) -> Result<(), JobError> {
        if small_end >= self.bore {
            let usual = "the piston pin is a fifth to a third of the cylinder's bore";
            return Err(self.bore_beside("a small-end bore", small_end, usual));
        }
        let cube = self.bore * self.bore * self.bore;
        let (low, high) = (MASS_OVER_BORE.0 * cube, MASS_OVER_BORE.1 * cube);
        if !(low..=high).contains(&self.reciprocating_mass) {
            return Err(JobError::Impossible {
                what: "a reciprocating mass",
                value: rounded(self.reciprocating_mass * 1e3),
                unit: "g",
                with: "a cylinder bore",
                other: rounded(self.bore * 1e3),
                other_unit: "mm",
                key: "engine.reciprocating_mass_g",
                usual: format!("{:.1} to {:.0} g for piston, rings and pin", 300e3 * cube, 3e6 * cube),
            });
        }
        Ok(())
    }

    /// Whether a piston with a skirt (diameter, m) can be this engine's.
    pub fn fits_piston(&self, skirt: f64) -> Result<(), JobError> {
        let ratio = skirt / self.bore;
        if (SKIRT_OVER_BORE.0..=SKIRT_OVER_BORE.1).contains(&ratio) {
            return Ok(());
        }
        Err(self.bore_beside("a piston skirt", skirt, "a few tenths of a millimetre more than the skirt"))
    }

    /// That the cylinder cannot belong to a diameter of the part, m.
    fn bore_beside(&self, with: &'static str, diameter: f64, usual: &str) -> JobError {
        JobError::Impossible {
            what: "a cylinder bore",
            value: rounded(self.bore * 1e3),
            unit: "mm",
            with,
            other: rounded(diameter * 1e3),
            other_unit: "mm",
            key: "engine.bore_mm",
            usual: usual.into(),
        }
    }
}
