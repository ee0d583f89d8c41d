use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::data::WarningReport;
use crate::verdict::Mode;

/// A ladder of runs for one part: where to start, how to climb, what to look at, when to stop.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PlanReport {
    /// Read them first.
    pub cautions: Vec<String>,
    /// Version of this form.
    pub schema_version: String,
    /// Version of the program that wrote it.
    pub program_version: String,
    /// Inputs that are possible but far from what is usual, in sentences: a slip of the unit is likely.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub warnings: Vec<WarningReport>,
    /// Top speed of the duty, rpm.
    pub duty_rpm: f64,
    /// Wanted running time, s.
    pub wanted_life_s: f64,
    /// The margin at the duty before the first run.
    pub margin: MarginBandReport,
    /// Whether 999 of 1000 parts live through the first step by the model. Else it is the lowest level there is, and the part is
    /// better not run before more is known.
    pub starts_low_enough: bool,
    /// Steps in order.
    pub steps: Vec<PlanStepReport>,
    /// Whether the steps up to the duty end with the wanted life.
    pub reaches: bool,
    /// Share of parts that come through all steps up to the wanted life at the duty.
    pub come_through: f64,
    /// How long the part cools after each step, s, at least.
    pub pause_s: f64,
    /// What to look at after each step, the likeliest place first.
    pub inspect: Vec<InspectReport>,
    /// At any of these the part is not run again.
    pub stop_signs: Vec<String>,
    /// Prints there are to spend.
    pub parts: usize,
    /// What is known of the margin after them, on average.
    pub after_parts: Vec<AfterPartReport>,
    /// What test bars would teach beside a part.
    pub bars: BarsReport,
    /// Where the plan is weak, in sentences.
    pub notes: Vec<String>,
}

/// Where the margin lies: the factor by which all stress could grow before 10 % of parts fail within the wanted life.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MarginBandReport {
    /// 5 % lie below.
    pub low: f64,
    /// Half lie below.
    pub middle: f64,
    /// 5 % lie above.
    pub high: f64,
}

/// One step of a ladder.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PlanStepReport {
    /// Its number, from 1.
    pub number: usize,
    /// Top speed, rpm.
    pub rpm: f64,
    /// Throttle at that speed, 0 to 1.
    pub throttle: f64,
    /// How long, s.
    pub seconds: f64,
    /// Running time since new at its end, s.
    pub total_s: f64,
    /// Share of the parts that came so far which it breaks.
    pub breaks: f64,
    /// Share of all parts that come through it.
    pub come_through: f64,
    /// Whether it is above the duty, only to learn how much is left in the part.
    pub beyond_duty: bool,
    /// What fails first in it by the model.
    pub mode: Mode,
    /// Where.
    pub place: String,
    /// The margin at the duty where the part lives through it.
    pub if_it_lives: MarginBandReport,
    /// How many times narrower that band is than before the first run.
    pub narrowed: f64,
    /// The margin at the duty where it breaks the part.
    pub if_it_breaks: MarginBandReport,
}

/// A place to look at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct InspectReport {
    /// Where, in words.
    pub place: String,
    /// That place, mm, coordinates of the file; absent for the whole part.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub center_mm: Option<[f64; 3]>,
    /// The failure mode that it is about.
    pub mode: Mode,
    /// What to look for, as a sentence without its full stop.
    pub look: String,
}

/// What is known after some parts.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct AfterPartReport {
    /// Parts run up the ladder, each planned anew from what the ones before taught.
    pub parts: usize,
    /// How many times narrower the band of the margin is than before the first, half of such logs by more.
    pub narrowed: f64,
    /// Parts broken so far, on average.
    pub broken: f64,
    /// Logs drawn by chance for these.
    pub draws: usize,
}

/// Test bars in place of a part.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BarsReport {
    /// How many bars.
    pub bars: usize,
    /// How many times narrower the band of the margin is when so many bars have been broken.
    pub narrowed: f64,
    /// The same of one part on this ladder, on average.
    pub part_narrowed: f64,
    /// Whether the bars teach more than the first part, so that they come first.
    pub first: bool,
}
