use super::error::CouponError;
use super::row::CouponRow;
use crate::units::ZERO_C;

/// Direction of the stress in a test piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum TestDirection {
    /// Along the beads.
    Bead,
    /// In the layer plane, square to the beads.
    Across,
    /// Along the build direction.
    Layer,
}

impl TestDirection {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Bead => "along beads",
            Self::Across => "across beads",
            Self::Layer => "across layers",
        }
    }
}

/// What a test gave, in SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measured {
    /// Strength and, where it was measured, Young's modulus, Pa.
    Tensile(f64, Option<f64>),
    /// The same of the outer fibre.
    Bending(f64, Option<f64>),
    /// Strength, Pa.
    Compression(f64),
    /// Strength, Pa.
    Shear(f64),
    /// Highest stress, Pa, least over highest stress, and cycles.
    Fatigue(f64, f64, f64),
    /// Steady stress, Pa, and time, s.
    Rupture(f64, f64),
    /// Steady stress, Pa, time, s, and strain less the elastic one.
    Creep(f64, f64, f64),
}

/// One test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CouponTest {
    /// Direction of the stress.
    pub direction: TestDirection,
    /// K.
    pub temperature: f64,
    /// Result.
    pub measured: Measured,
    /// Whether it was stopped before it broke.
    pub run_out: bool,
}

impl CouponTest {
    /// Reads row number `row`, the first below the heading being 1.
    ///
    /// # Errors
    ///
    /// Where the row says what cannot be.
    pub fn read(row: usize, written: &CouponRow) -> Result<Self, CouponError> {
        let word = |text: &Option<String>| text.as_deref().map(|t| t.trim().to_ascii_lowercase()).unwrap_or_default();
        let test = word(&written.test);
        let positive = |kind, column, value: Option<f64>| match value {
            None => Err(CouponError::Missing { row, test: kind, column }),
            Some(value) if value.is_finite() && value > 0.0 => Ok(value),
            Some(value) => Err(CouponError::Implausible { row, column, value }),
        };
        let strength = |kind| Ok::<f64, CouponError>(positive(kind, "strength_mpa", written.strength_mpa)? * 1e6);
        let modulus = |kind| match written.modulus_mpa {
            None => Ok(None),
            given => positive(kind, "modulus_mpa", given).map(|mpa| Some(mpa * 1e6)),
        };
        let measured = match test.as_str() {
            "tensile" => Measured::Tensile(strength("tensile")?, modulus("tensile")?),
            "bending" => Measured::Bending(strength("bending")?, modulus("bending")?),
            "compression" => Measured::Compression(strength("compression")?),
            "shear" => Measured::Shear(strength("shear")?),
            "fatigue" => {
                let ratio = written.stress_ratio.unwrap_or(-1.0);
                if !(-1.0..1.0).contains(&ratio) {
                    return Err(CouponError::Implausible { row, column: "stress_ratio", value: ratio });
                }
                let stress = positive("fatigue", "stress_mpa", written.stress_mpa)?;
                Measured::Fatigue(stress * 1e6, ratio, positive("fatigue", "cycles", written.cycles)?)
            }
            "creep-rupture" => {
                let stress = positive("creep-rupture", "stress_mpa", written.stress_mpa)?;
                Measured::Rupture(stress * 1e6, positive("creep-rupture", "time_s", written.time_s)?)
            }
            "creep" => {
                let stress = positive("creep", "stress_mpa", written.stress_mpa)?;
                let time = positive("creep", "time_s", written.time_s)?;
                Measured::Creep(stress * 1e6, time, positive("creep", "creep_strain", written.creep_strain)?)
            }
            _ => return Err(CouponError::UnknownTest { row, test }),
        };
        let direction = match word(&written.direction).as_str() {
            "bead" => TestDirection::Bead,
            "across" => TestDirection::Across,
            "layer" => TestDirection::Layer,
            // Compression and shear between layers have one value each, whatever the direction.
            "" if matches!(measured, Measured::Compression(_) | Measured::Shear(_)) => TestDirection::Layer,
            other => {
                let known = "bead, across, layer";
                return Err(CouponError::UnknownWord { row, column: "direction", word: other.into(), known });
            }
        };
        let celsius = written.temperature_c.unwrap_or(23.0);
        if !(-60.0..=400.0).contains(&celsius) {
            return Err(CouponError::Implausible { row, column: "temperature_c", value: celsius });
        }
        let run_out = match word(&written.outcome).as_str() {
            "" | "failed" => false,
            "run-out" | "runout" => true,
            other => {
                let known = "failed, run-out";
                return Err(CouponError::UnknownWord { row, column: "outcome", word: other.into(), known });
            }
        };
        Ok(Self { direction, temperature: celsius + ZERO_C, measured, run_out })
    }
}
