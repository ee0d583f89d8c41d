use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::data::WarningReport;
use super::size::NumbersBy;
use crate::job::Quantity;

/// What a study found.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StudyReport {
    /// Version of this form.
    pub schema_version: String,
    /// Version of the program that wrote it.
    pub program_version: String,
    /// Title of the study.
    pub title: Option<String>,
    /// Inputs of the job that are possible but far from what is usual, in sentences: a slip of the unit is likely.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub warnings: Vec<WarningReport>,
    /// Cases of the plan.
    pub cases: usize,
    /// Of them, those that gave an answer.
    pub answered: usize,
    /// Of them, those with a margin of at least 1 for the wanted life. By sections alone that is no fault found: they see no
    /// fillets, pockets and blends, so that a check by the stress field may still fail.
    pub reaching: usize,
    /// What the numbers rest on.
    pub by: NumbersBy,
    /// How far off corrected sections were where a field was solved.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub correction: Option<CorrectionReport>,
    /// Everything that was asked of every case.
    pub responses: Vec<ResponseReport>,
    /// Read them.
    pub cautions: Vec<String>,
}

/// Margins of solved cases over those that corrected sections gave them.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CorrectionReport {
    /// Cases solved.
    pub solved: usize,
    /// Least.
    pub low: f64,
    /// Middle.
    pub median: f64,
    /// Greatest.
    pub high: f64,
}

/// One number of all cases, and what moves it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ResponseReport {
    /// What it is.
    pub name: String,
    /// Its unit, `1` for pure numbers.
    pub unit: String,
    /// Mean.
    pub mean: f64,
    /// Standard deviation.
    pub deviation: f64,
    /// One case in twenty lies below.
    pub low: f64,
    /// Half the cases lie below.
    pub median: f64,
    /// One case in twenty lies above.
    pub high: f64,
    /// Inputs, the strongest first.
    pub effects: Vec<EffectReport>,
}

/// What one input does to it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct EffectReport {
    /// The input.
    pub input: String,
    /// Share of the variance between the levels below.
    pub share_of_variance: f64,
    /// Sobol's index of first order: its own share of the variance.
    pub first_order: Option<f64>,
    /// Sobol's index of total order: its share with all that it does together with others.
    pub total_order: Option<f64>,
    /// Its main effect.
    pub levels: Vec<EffectLevelReport>,
}

/// Mean over the cases at one level of an input.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct EffectLevelReport {
    /// The level: a value, or the middle of a tenth of the range.
    pub at: Quantity,
    /// Mean of the response there.
    pub mean: f64,
    /// Cases there.
    pub cases: usize,
}
