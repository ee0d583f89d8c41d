use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::data::WarningReport;
use crate::verdict::Mode;

/// Life against speed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SweepReport {
    /// Version of this form.
    pub schema_version: String,
    /// Version of the program that wrote it.
    pub program_version: String,
    /// Title of the job.
    pub title: Option<String>,
    /// Whether the stress field was solved at the job's own duty and the stress at every speed raised to it. Otherwise these
    /// are numbers of sections alone, which see no fillets, pockets and blends.
    pub solved: bool,
    /// Top speed of the duty as the job has it, rpm.
    pub duty_rpm: f64,
    /// Wanted running time, s.
    pub wanted_life_s: f64,
    /// Inputs that are possible but far from what is usual, in sentences: a slip of the unit is likely.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub warnings: Vec<WarningReport>,
    /// One entry for each speed, rising.
    pub sweep: Vec<SweepPoint>,
    /// Read them.
    pub cautions: Vec<String>,
}

/// What one speed does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SweepPoint {
    /// Top speed of the duty, rpm.
    pub rpm: f64,
    /// Running time that 90 % of parts reach, s.
    pub life_b10_s: f64,
    /// Running time that half the parts reach, s.
    pub life_b50_s: f64,
    /// Highest temperature at which strength was taken, °C; absent where the rod heats itself without limit.
    pub peak_temperature_c: Option<f64>,
    /// Factor by which all stress could grow before one part in ten fails within the wanted life.
    pub margin: f64,
    /// What fails first: the mode whose own margin is least.
    pub governing_mode: Mode,
    /// Where.
    pub governing_place: String,
}
