use serde::{Deserialize, Serialize};

/// One row of a table of tests as written, empty columns absent; a fit makes sense of it.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct CouponRow {
    /// Name of the test piece, for the user.
    pub specimen: Option<String>,
    /// `tensile` (ISO 527), `bending` (ISO 178), `compression` (ISO 604), `shear`, `fatigue` (ISO 13003), `creep-rupture`
    /// or `creep` (ISO 899).
    pub test: Option<String>,
    /// Of the stress: `bead`, `across` or `layer`.
    pub direction: Option<String>,
    /// Of the test; 23 unless said.
    pub temperature_c: Option<f64>,
    /// Greatest stress of a short-term test.
    pub strength_mpa: Option<f64>,
    /// Young's modulus of a tensile or bending test.
    pub modulus_mpa: Option<f64>,
    /// Highest stress of a fatigue cycle, or steady stress of a creep test.
    pub stress_mpa: Option<f64>,
    /// Least over highest stress of a fatigue cycle; -1 unless said.
    pub stress_ratio: Option<f64>,
    /// Cycles reached.
    pub cycles: Option<f64>,
    /// Time under load.
    pub time_s: Option<f64>,
    /// Strain less the elastic strain of loading.
    pub creep_strain: Option<f64>,
    /// `failed`, or `run-out` for a test stopped before it broke; failed unless said.
    pub outcome: Option<String>,
    /// Day of the test, year first.
    pub date: Option<String>,
    /// For the user.
    pub note: Option<String>,
}
