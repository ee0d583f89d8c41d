use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A place of a part of any kind, by a bore or a face.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct PlaceTable {
    /// Its name, by which holds, loads and warmth call it.
    pub name: String,
    /// A bore.
    pub bore: Option<BoreTable>,
    /// A face.
    pub face: Option<FaceTable>,
}

/// A bore by where it is or how wide it is, or both.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct BoreTable {
    /// A point in it or near it, coordinates of the file, mm.
    pub near_mm: Option<[f64; 3]>,
    /// Its diameter, mm.
    pub diameter_mm: Option<f64>,
}

/// A face by a point of it or by the direction in which it faces.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct FaceTable {
    /// A point on it, coordinates of the file, mm: the surface round it as far as it turns no more than `within_deg`.
    pub near_mm: Option<[f64; 3]>,
    /// Direction in which it faces, coordinates of the file: all of the surface that faces so.
    pub toward: Option<[f64; 3]>,
    /// Angle by which its surface may turn away, degrees.
    pub within_deg: Option<f64>,
}

/// What holds a part.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct HoldTable {
    /// Name of the place; none of a part that is free.
    pub at: Option<String>,
    /// How it is held.
    #[serde(rename = "as")]
    pub held_as: Option<HoldWord>,
    /// Radial clearance of a pin, mm.
    pub clearance_mm: Option<f64>,
}

/// How a place is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum HoldWord {
    /// By a round pin that only pushes, without friction.
    Pin,
    /// In every direction, as glued to metal.
    Glued,
    /// Square to its surface alone, both ways.
    Flat,
    /// By nothing but its own inertia.
    Free,
}

/// What loads a part.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct LoadTable {
    /// Its name, which is that of its column in the history.
    pub name: String,
    /// Name of the place at which it acts.
    pub at: Option<String>,
    /// Force, coordinates of the file, N: even over a face, in a bore as a round pin presses it.
    pub force_n: Option<[f64; 3]>,
    /// Radial clearance of the pin that brings a force into a bore, mm.
    pub clearance_mm: Option<f64>,
    /// Pressure on the place, bar.
    pub pressure_bar: Option<f64>,
    /// Moment, coordinates of the file, N m.
    pub moment_n_m: Option<[f64; 3]>,
    /// Acceleration of the whole part, coordinates of the file, m/s².
    pub acceleration_m_s2: Option<[f64; 3]>,
    /// Turning of the whole part.
    pub spin: Option<SpinTable>,
    /// Whether it grows as the square of the speed, and is stated at the highest speed of the duty.
    pub follows_speed: Option<bool>,
}

/// Turning about the axis of a bore, or about the line through the middle of a face square to it.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct SpinTable {
    /// Name of the place.
    pub about: String,
    /// Turns a minute.
    pub rpm: f64,
}

/// How loads run over time; without it they are steady.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct HistoryTable {
    /// CSV file beside the job file with a column of `angle_deg` or `seconds` and one column a load.
    pub table: Option<String>,
    /// Crank angles, degrees: up to 360 they repeat every turn, beyond every second turn.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub angle_deg: Vec<f64>,
    /// Times, s: what comes after the last repeats from the first.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub seconds: Vec<f64>,
    /// For each load by name, what it is multiplied by at those moments; of spin its speed is.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub loads: BTreeMap<String, Vec<f64>>,
}

/// Warmth of a place.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct WarmTable {
    /// Name of the place.
    pub at: String,
    /// Its temperature, °C.
    pub temperature_c: f64,
    /// Distance over which the warmth falls to a third, mm.
    pub reach_mm: Option<f64>,
}
