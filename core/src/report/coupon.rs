use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What tests of coupons gave a card.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CouponReport {
    /// Version of this form.
    pub schema_version: String,
    /// Version of the program that wrote it.
    pub program_version: String,
    /// Name of the new card.
    pub card: String,
    /// Name of the card that gave what was not tested.
    pub base: String,
    /// Day of the tests, as given.
    pub date: Option<String>,
    /// Tests in the table.
    pub tests: usize,
    /// Of them, those that went into no value.
    pub unused: usize,
    /// Share of such test series whose ranges hold the true value.
    pub confidence: f64,
    /// Every value that was fitted.
    pub fitted: Vec<FittedReport>,
    /// Lines through tests, with the tests.
    pub lines: Vec<FitLineReport>,
    /// What to mind, in sentences.
    pub findings: Vec<String>,
    /// Read them.
    pub cautions: Vec<String>,
}

/// One fitted value.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FittedReport {
    /// Its name.
    pub name: String,
    /// Its unit, `1` for pure numbers.
    pub unit: String,
    /// The value.
    pub value: f64,
    /// Lower end of its range.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// What the base card has; absent where it has none.
    pub base: Option<f64>,
    /// Tests behind it.
    pub tests: usize,
    /// Of them, run-outs.
    pub run_outs: usize,
    /// How it was found.
    pub how: String,
}

/// A line through tests. Logarithms are to the base 10 for fatigue and natural for creep rupture.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FitLineReport {
    /// What it is of.
    pub name: String,
    /// What stress is measured in.
    pub stress_unit: String,
    /// What life is measured in.
    pub life_unit: String,
    /// Fatigue: log10 life where log10 stress is nought. Creep rupture: activation energy, J/mol.
    pub intercept: f64,
    /// Fatigue: change of log10 life with log10 stress. Creep rupture: less the activation volume, m³/mol.
    pub slope: f64,
    /// Standard deviation of the logarithm of life about the line.
    pub deviation: f64,
    /// Points of the line with its band, stress rising.
    pub line: Vec<FitPointReport>,
    /// Stress and life of tests that failed.
    pub failed: Vec<[f64; 2]>,
    /// The same of run-outs.
    pub run_outs: Vec<[f64; 2]>,
}

/// A point of a line.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FitPointReport {
    /// Stress.
    pub stress: f64,
    /// Median life.
    pub life: f64,
    /// Lower end of the band of the whole line.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// Life that 90 % reach, by the scatter about the line.
    pub nine_in_ten: f64,
}
