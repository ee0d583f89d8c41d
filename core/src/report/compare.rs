use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::data::SpeedVerdict;
use crate::job::Quantity;
use crate::part::PartKind;
use crate::verdict::{Mode, State};

/// Two revisions of a part side by side.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CompareReport {
    /// Version of this form.
    pub schema_version: String,
    /// Version of the program that wrote it.
    pub program_version: String,
    /// What both are.
    pub kind: PartKind,
    /// The answer for the old one.
    pub old: RevisionReport,
    /// The answer for the new one.
    pub new: RevisionReport,
    /// Every number that was compared, changed or not.
    pub changes: Vec<ChangeReport>,
    /// Values of the two jobs that differ.
    pub inputs: Vec<InputChangeReport>,
    /// Both along the load path, at equal shares of it.
    pub path: Vec<PathChangeReport>,
    /// What it comes to, in sentences.
    pub findings: Vec<String>,
    /// Read them.
    pub cautions: Vec<String>,
}

/// The answer for one revision; `check` tells it in full.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RevisionReport {
    /// Title of its job.
    pub title: Option<String>,
    /// The answer with what it is worth.
    pub state: State,
    /// Whether 90 % of parts reach the wanted life; null where only sections were checked and found no fault.
    pub holds: Option<bool>,
    /// Whether that rests on more than memory.
    pub well_founded: bool,
    /// What fails first: the mode whose own margin is least.
    pub governing_mode: Mode,
    /// Where.
    pub governing_place: String,
    /// How to read its highest speed.
    pub max_rpm_meaning: SpeedVerdict,
    /// Inputs that are hardly meant, and what carries load and was not checked.
    pub unchecked: Vec<String>,
}

/// What a number is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ChangeGroup {
    /// The part itself.
    Geometry,
    /// What the engine does to it.
    Loads,
    /// How warm it gets.
    Heat,
    /// How long it lasts and what is left to spare.
    Life,
    /// How fast it may turn.
    Speed,
}

/// One number of both revisions.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ChangeReport {
    /// What it is of.
    pub group: ChangeGroup,
    /// What it is.
    pub name: String,
    /// Its unit, `1` for pure numbers.
    pub unit: String,
    /// Of the old one; absent where it has none.
    pub old: Option<f64>,
    /// Of the new one.
    pub new: Option<f64>,
    /// New over old, where both are above zero and the unit has a true zero.
    pub factor: Option<f64>,
}

/// A value of the job that differs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct InputChangeReport {
    /// Its name.
    pub name: String,
    /// Its unit, empty for words.
    pub unit: String,
    /// Of the old job; absent where it does not say.
    pub old: Option<Quantity>,
    /// Of the new one.
    pub new: Option<Quantity>,
}

/// Both parts at one share of the load path.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PathChangeReport {
    /// From 0 at the first station to 1 at the last.
    pub share: f64,
    /// Area of material, mm².
    pub old_area_mm2: f64,
    /// Of the new one.
    pub new_area_mm2: f64,
    /// Thinnest wall in the cuts hereabouts, mm.
    pub old_wall_mm: Option<f64>,
    /// Of the new one.
    pub new_wall_mm: Option<f64>,
    /// Stress over mean strength by one load.
    pub old_utilisation: f64,
    /// Of the new one.
    pub new_utilisation: f64,
}
