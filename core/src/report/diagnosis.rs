use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::data::WarningReport;
use crate::verdict::Mode;

/// What caused a break, by the model and by what was seen.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DiagnosisReport {
    /// Version of this form.
    pub schema_version: String,
    /// Version of the program that wrote it.
    pub program_version: String,
    /// The run as taken.
    pub run: BrokenRunReport,
    /// What was seen.
    pub looks: Vec<LookReport>,
    /// Where; absent where it was not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<BrokenPlaceReport>,
    /// Inputs that are possible but far from what is usual, in sentences: a slip of the unit is likely.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub warnings: Vec<WarningReport>,
    /// Every cause, the likeliest first; their probabilities add up to 1.
    pub causes: Vec<CauseReport>,
    /// Whether a failure mode that the program knows fits better than none of them.
    pub fits: bool,
    /// Whether the likeliest cause is less than twice as likely as the next: then look again before anything is changed.
    pub undecided: bool,
    /// What of the inputs the break contradicts, in sentences.
    pub contradictions: Vec<String>,
    /// The look that would tell the two likeliest causes apart; absent where none does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub next_look: Option<NextLookReport>,
    /// What to change, in sentences, the first about the likeliest cause.
    pub changes: Vec<String>,
    /// Where the numbers of the looks come from.
    pub source: String,
    /// Read them.
    pub cautions: Vec<String>,
}

/// The run in which it broke.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BrokenRunReport {
    /// Top speed, rpm.
    pub rpm: f64,
    /// Running time at which it broke, s; absent where it was not said: then any time within the wanted life.
    pub seconds: Option<f64>,
    /// Wanted life of the job, s.
    pub wanted_life_s: f64,
    /// Temperature measured, °C.
    pub measured_c: Option<f64>,
    /// Highest temperature by the model, °C.
    pub model_c: f64,
    /// Share of parts that the model expects to fail by then, by any mode, were its inputs right.
    pub failed_by: f64,
}

/// Something that was seen.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LookReport {
    /// Its name.
    pub look: String,
    /// What it is, in words.
    pub words: String,
}

/// Where a part broke.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BrokenPlaceReport {
    /// Region of the part.
    pub region: String,
    /// As it was said.
    pub told: String,
    /// The point, mm, coordinates of the file; absent of a place in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_mm: Option<[f64; 3]>,
}

/// A possible cause.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CauseReport {
    /// The failure mode; null where it is none of those that are known.
    pub mode: Option<Mode>,
    /// Its name in words.
    pub words: String,
    /// How likely it is, 0 to 1.
    pub probability: f64,
    /// How likely it was before the looks, by model, place and time.
    pub before: f64,
    /// Margin of the run against it; null where it is no mode.
    pub margin: Option<f64>,
    /// Where the model has it; null where it is no mode.
    pub place: Option<String>,
    /// Looks that speak for it: of those seen, the ones that its breaks have more often than others.
    pub speaks_for: Vec<String>,
    /// Looks seen that speak against it.
    pub speaks_against: Vec<String>,
}

/// The look that tells two causes apart.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct NextLookReport {
    /// Its name.
    pub look: String,
    /// How to find out, in words.
    pub how: String,
    /// What it tells on average, bits.
    pub bits: f64,
    /// The cause that it speaks for where it is there.
    pub if_there: String,
    /// The cause that it speaks for where it is not.
    pub if_not: String,
}
