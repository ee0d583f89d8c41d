use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::data::WarningReport;
use crate::verdict::{Mode, State};

/// What a bench log teaches of a family of parts.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LearnReport {
    /// Version of this form.
    pub schema_version: String,
    /// Version of the program that wrote it.
    pub program_version: String,
    /// The family.
    pub family: String,
    /// Inputs that are possible but far from what is usual, in sentences: a slip of the unit is likely.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub warnings: Vec<WarningReport>,
    /// Runs of it in the log.
    pub runs: usize,
    /// Of them, failures.
    pub failures: usize,
    /// What the material card leaves open.
    pub before: FactorsReport,
    /// What the runs leave of that.
    pub after: FactorsReport,
    /// Each quantity by itself, where the failure mode of some run is known; `before` and `after` are then of the strength that
    /// decides what fails first here.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub quantities: Vec<QuantityReport>,
    /// The part and job in question, before and after.
    pub life_before: LearnedLifeReport,
    /// With what was learned.
    pub life_after: LearnedLifeReport,
    /// Probability of runs at least as far from the model's middle, were the model and its uncertainty right.
    pub chance: f64,
    /// Whether that is less than one in a hundred.
    pub disagrees: bool,
    /// The same of the scatter of failures among each other; absent with fewer than two.
    pub scatter_chance: Option<f64>,
    /// Every run.
    pub entries: Vec<LearnedRunReport>,
    /// What it comes to, in sentences.
    pub findings: Vec<String>,
    /// Read them.
    pub cautions: Vec<String>,
}

/// Two factors with what is known of them.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FactorsReport {
    /// Strength over the card's, middle.
    pub strength: f64,
    /// 90 % lie between.
    pub strength_range: [f64; 2],
    /// Life over the model's at that strength, middle.
    pub life: f64,
    /// 90 % lie between.
    pub life_range: [f64; 2],
    /// Correlation of their logarithms: runs at one speed cannot tell them apart.
    pub correlation: f64,
}

/// A quantity of the material that breaks of some modes teach.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct QuantityReport {
    /// Its name in words.
    pub name: String,
    /// Middle factor over the card's or the model's before the log.
    pub before: f64,
    /// 90 % lie between.
    pub before_range: [f64; 2],
    /// Middle factor with the log.
    pub after: f64,
    /// 90 % lie between.
    pub after_range: [f64; 2],
    /// Failures in the log by modes that it decides.
    pub failures: usize,
}

/// Margin and life of the part in question.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LearnedLifeReport {
    /// The answer.
    pub state: State,
    /// Whether it reaches the wanted life; null where sections alone were asked and find no fault, as they see no fillets,
    /// pockets and blends.
    pub holds: Option<bool>,
    /// Margin.
    pub margin: f64,
    /// The margin is known to within this factor either way.
    pub margin_factor: f64,
    /// Running time that 90 % reach, s.
    pub b10_s: f64,
    /// Running time that half reach, s.
    pub b50_s: f64,
    /// Highest speed for the wanted life, rpm.
    pub max_rpm: Option<f64>,
}

/// One run beside the model.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LearnedRunReport {
    /// Day, as logged.
    pub date: Option<String>,
    /// Top speed, rpm.
    pub rpm: f64,
    /// Running time, s.
    pub seconds: f64,
    /// Whether it failed.
    pub failed: bool,
    /// Where it was seen to fail.
    pub place: Option<String>,
    /// By which mode, where the break was read.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mode: Option<Mode>,
    /// Share of prints that the model, before the log, has failed by then.
    pub failed_by_before: f64,
    /// The same after it.
    pub failed_by_after: f64,
    /// Life that half reach at these steps, before the log, s.
    pub b50_before_s: f64,
    /// What fails first by the model.
    pub model_place: String,
}
