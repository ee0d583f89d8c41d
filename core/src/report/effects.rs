use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How far an effect is in the answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Coverage {
    /// Worked out, and in the margin.
    Checked,
    /// Not worked out in full, but no more than its factor by what is known.
    Bounded,
    /// Not checked.
    NotChecked,
}

impl Coverage {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Checked => "checked",
            Self::Bounded => "bounded",
            Self::NotChecked => "not checked",
        }
    }
}

/// An effect that may change the answer, and whether it is in it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CoveredReport {
    /// What it is.
    pub effect: String,
    /// Whether it is in the answer.
    pub state: Coverage,
    /// What is done about it, and when it matters, in a sentence without its full stop.
    pub told: String,
    /// By how much the margin could be less for what of it is not in the answer: 1 where all of it is.
    pub factor: f64,
}

impl CoveredReport {
    /// Whether what is not checked of it could turn a margin that holds.
    pub fn could_turn(&self, margin: f64) -> bool {
        self.state == Coverage::NotChecked && margin / self.factor < 1.0
    }
}
