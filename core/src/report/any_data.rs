use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

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
