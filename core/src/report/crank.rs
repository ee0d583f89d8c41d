//! Forces over one cycle of the engine, as a table.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Forces over one engine cycle in the fastest step of the duty.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CrankReport {
    /// Speed of that step, rpm.
    pub rpm: f64,
    /// Its throttle, 0 to 1.
    pub throttle: f64,
    /// Where `axial_force_n` is: the most used cut, mm as in `stations`.
    pub axial_position_mm: f64,
    /// Where `bending_moment_n_mm` is: the cut of the greatest whip, mm; of a rod.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bending_position_mm: Option<f64>,
    /// One entry for every few degrees of a whole cycle; 0 is top dead centre at firing.
    pub moments: Vec<CrankMomentReport>,
}

/// Forces at one crank angle.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CrankMomentReport {
    /// Crank angle, degrees.
    pub crank_deg: f64,
    /// Absolute cylinder pressure, bar.
    pub pressure_bar: f64,
    /// Acceleration of the piston toward the head, m/s².
    pub piston_acceleration_m_s2: f64,
    /// Axial force in the most used cut, tension positive, N.
    pub axial_force_n: f64,
    /// Bending moment in the plane of the engine where it is greatest, N mm; of a rod.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bending_moment_n_mm: Option<f64>,
    /// Piston pin on the part, along it, N: on a rod toward the big end, on a piston toward the head.
    pub piston_pin_n: f64,
    /// Crank pin on the rod, away from the small end, N.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crank_pin_n: Option<f64>,
    /// Cylinder wall on the skirt, N; of a piston.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side_thrust_n: Option<f64>,
}
