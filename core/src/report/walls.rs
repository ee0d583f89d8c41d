use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::wall::ThinReason;

/// Where the material is too thin.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct WallsReport {
    /// Version of this form.
    pub schema_version: String,
    /// Version of the program that wrote it.
    pub program_version: String,
    /// Title of the job.
    pub title: Option<String>,
    /// Walls below their limit, the gravest reason first and the thinnest first within it.
    pub thin_regions: Vec<ThinRegionReport>,
    /// Places in the shank where the area changes suddenly.
    pub area_steps: Vec<AreaStepReport>,
    /// The thinnest wall anywhere, mm.
    pub least_thickness_mm: Option<f64>,
    /// Thickness that nine tenths of the surface exceed, half of it, and one tenth, mm; by area.
    pub thickness_mm_by_area: [f64; 3],
    /// Facets of the rod's surface. They are those of the file, in its order, unless `facets_as_in_file` says otherwise.
    pub facet_count: usize,
    /// Whether stress was checked: the job has an engine, a material and a speed.
    pub stress_looked_at: bool,
    /// Whether facet numbers are those of the file: nothing was mended, capped or left out.
    pub facets_as_in_file: bool,
    /// Least wall thickness on each facet, mm; `null` for a facet that bounds nothing or that no wall faces, as in a
    /// corner. Only when asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub thickness_mm: Option<Vec<Option<f64>>>,
    /// Where the measure is weak for this case.
    pub notes: Vec<String>,
    /// Read them.
    pub cautions: Vec<String>,
}

/// A wall that is too thin.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ThinRegionReport {
    /// Where on the rod, in words.
    pub place: String,
    /// Middle of the wall where it is thinnest, mm, coordinates of the file.
    pub center_mm: [f64; 3],
    /// Area seen from one side, mm².
    pub area_mm2: f64,
    /// Least thickness, mm.
    pub least_thickness_mm: f64,
    /// Thickness that would do, mm.
    pub limit_mm: f64,
    /// Why it is flagged.
    pub cause: ThinCause,
    /// The same in a sentence.
    pub reason: String,
    /// Length of the sharp edge in which its two sides meet, mm; absent for a wall that does not run out to nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub edge_length_mm: Option<f64>,
    /// How far back from that edge the wall is too thin, mm, on average.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub edge_depth_mm: Option<f64>,
    /// Its facets on both sides, by number.
    pub facets: Vec<u32>,
}

/// Why a wall is flagged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ThinCause {
    /// Fewer than two beads side by side.
    FewBeads,
    /// Below the limit that was given.
    BelowGiven,
    /// More stress than nine prints in ten bear for the wanted life.
    Stress,
    /// The solid bands of both sides meet; there is no lighter inside.
    NoCore,
}

impl From<ThinReason> for ThinCause {
    fn from(reason: ThinReason) -> Self {
        match reason {
            ThinReason::FewBeads => Self::FewBeads,
            ThinReason::BelowGiven => Self::BelowGiven,
            ThinReason::Overstressed => Self::Stress,
            ThinReason::NoCore => Self::NoCore,
        }
    }
}

/// A place where the area along the load path changes suddenly.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct AreaStepReport {
    /// Where the change begins and ends, mm from the small-end centre.
    pub from_mm: f64,
    /// See `from_mm`.
    pub to_mm: f64,
    /// Area before and after, mm².
    pub area_from_mm2: f64,
    /// See `area_from_mm2`.
    pub area_to_mm2: f64,
    /// Fillet radius that a change of this height and length has, mm.
    pub fillet_radius_mm: f64,
    /// Peak stress over the mean stress of the smaller section in tension.
    pub concentration: f64,
}
