use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::verdict::{Mode, State};

/// Sizes, materials, directions and walls that reach a wanted speed and life.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SizeReport {
    /// Version of this form.
    pub schema_version: String,
    /// Version of the program that wrote it.
    pub program_version: String,
    /// Title of the job.
    pub title: Option<String>,
    /// Wanted top speed, rpm.
    pub wanted_rpm: f64,
    /// Wanted running time, s.
    pub wanted_life_s: f64,
    /// Least and greatest factor on thickness that was tried.
    pub factor_range: [f64; 2],
    /// Whether anything reaches it.
    pub reached: bool,
    /// The part and the job as they are.
    pub as_it_is: CandidateReport,
    /// The lightest of what reaches it with the mesh as it is, if any does.
    pub without_change: Option<usize>,
    /// The lightest of all that reach it, by number in `candidates`.
    pub lightest: Option<usize>,
    /// The quickest to print of them.
    pub quickest: Option<usize>,
    /// The one of the greatest margin, whether it reaches it or not.
    pub strongest: usize,
    /// One entry for each way to be made and each part of the thickness varied: the least that reaches it, or the best of
    /// the range.
    pub candidates: Vec<CandidateReport>,
    /// What it comes to, in a sentence.
    pub answer: String,
    /// Where the search is weak.
    pub notes: Vec<String>,
    /// Read them.
    pub cautions: Vec<String>,
}

/// Which thickness of the part is varied.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Varied {
    /// The whole rod by one factor.
    Whole,
    /// The shank alone.
    Shank,
    /// The small end alone.
    SmallEnd,
    /// The big end alone.
    BigEnd,
    /// Shank and both ends, each by a factor of its own.
    Each,
    /// The crown of a piston.
    Crown,
}

impl Varied {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Whole => "whole rod",
            Self::Shank => "shank",
            Self::SmallEnd => "small end",
            Self::BigEnd => "big end",
            Self::Each => "each part",
            Self::Crown => "crown",
        }
    }
}

/// Where the numbers of a candidate or a case come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum NumbersBy {
    /// A stress field solved for it.
    Field,
    /// Sections raised by what the field of the mesh found over them.
    CorrectedSections,
    /// Sections alone.
    Sections,
}

impl NumbersBy {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Field => "solved",
            Self::CorrectedSections => "corrected",
            Self::Sections => "sections",
        }
    }
}

/// One way to make the part.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CandidateReport {
    /// Which thickness was varied; absent for the part as it is.
    pub varied: Option<Varied>,
    /// Material family, or the name on its card.
    pub material: String,
    /// `flat`, `on-edge`, `upright`, or the direction of the job.
    pub direction: String,
    /// Beads along every outline.
    pub walls: u32,
    /// What its numbers rest on.
    pub by: NumbersBy,
    /// The answer; sections, corrected or alone, find a fault or none.
    pub state: State,
    /// Whether by these numbers 90 % reach the wanted life at the wanted speed.
    pub reaches: bool,
    /// Whether no other candidate that reaches it beats it in mass, life and print time together.
    pub pareto: bool,
    /// Thickness along the pins over that of the mesh: small end, shank, big end; of a rod.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thickness_factors: Option<[f64; 3]>,
    /// The greatest thickness along the pins that these come to: small end, shank, big end, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thickness_mm: Option<[f64; 3]>,
    /// Thickness of the crown over that of the mesh; of a piston.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crown_factor: Option<f64>,
    /// What it comes to, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crown_mm: Option<f64>,
    /// Mass as printed, g.
    pub mass_g: f64,
    /// Time to print it, s.
    pub print_time_s: f64,
    /// Factor by which all stress could grow before 10 % fail within the wanted life.
    pub margin: f64,
    /// Running time that 90 % reach, s.
    pub life_b10_s: f64,
    /// What fails first: the mode whose own margin is least.
    pub governing_mode: Mode,
    /// Where.
    pub governing_place: String,
}
