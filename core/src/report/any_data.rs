use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::part::BoreReport;
use crate::job::HoldWord;

/// What only a part of any kind has: its places, what holds it there and what loads it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct AnyReport {
    /// The places of the job as they were found.
    pub places: Vec<PlaceReport>,
    /// What holds it.
    pub holds: Vec<HoldReport>,
    /// What loads it.
    pub loads: Vec<AnyLoadReport>,
    /// How the loads run, in words.
    pub history: String,
    /// Places with a temperature of their own.
    pub warm: Vec<WarmReport>,
}

/// A bore or a face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PlaceShapeWord {
    /// A bore, or several of one diameter.
    Bore,
    /// A face.
    Face,
}

/// A place as it was found.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PlaceReport {
    /// Its name.
    pub name: String,
    /// What it is.
    pub shape: PlaceShapeWord,
    /// Facets found.
    pub facets: usize,
    /// Their area, mm².
    pub area_mm2: f64,
    /// Middle of that area, of a single bore that of its axis, mm, coordinates of the file.
    pub center_mm: [f64; 3],
    /// Mean outward direction, of a bore that along its axis.
    pub direction: [f64; 3],
    /// Diameter of a bore, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub diameter_mm: Option<f64>,
    /// Bores of that diameter.
    pub bores: usize,
}

/// Bores and flat faces of a mesh, which can be places of a part of any kind.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FeaturesReport {
    /// Version of this form.
    pub schema_version: String,
    /// Version of the program that wrote it.
    pub program_version: String,
    /// Its bores, the widest first.
    pub bores: Vec<BoreReport>,
    /// Its flat faces, the largest first.
    pub faces: Vec<FaceReport>,
    /// Read them.
    pub cautions: Vec<String>,
}

/// A flat face.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FaceReport {
    /// mm².
    pub area_mm2: f64,
    /// Middle of its area, mm, coordinates of the file; it may lie in a hole of the face.
    pub center_mm: [f64; 3],
    /// A point on it, mm.
    pub on_mm: [f64; 3],
    /// Outward unit vector.
    pub direction: [f64; 3],
    /// Its facets.
    pub facets: usize,
}

/// A hold.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HoldReport {
    /// Name of its place; absent of a part that is free.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<String>,
    /// How it holds.
    pub held_as: HoldWord,
    /// Radial clearance of a pin, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clearance_mm: Option<f64>,
    /// Greatest force that a pin bears, N.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub greatest_n: Option<f64>,
}

/// A load.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct AnyLoadReport {
    /// Its name.
    pub name: String,
    /// Name of its place; absent where it acts on the whole part.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<String>,
    /// What it is, in words with its unit.
    pub what: String,
    /// Least factor of the history on it.
    pub least: f64,
    /// Greatest factor.
    pub greatest: f64,
    /// Whether it grows as the square of the speed.
    pub follows_speed: bool,
}

/// A warm place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct WarmReport {
    /// Its name.
    pub at: String,
    /// °C.
    pub temperature_c: f64,
    /// Distance over which its warmth falls to a third, mm.
    pub reach_mm: f64,
}
