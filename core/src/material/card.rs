use serde::{Deserialize, Serialize};

use super::{Source, Value};

/// What is known of one printed material family, by direction, temperature and moisture.
///
/// Units are in the field names (a card is an edge: MPa, °C, kg/m³). Values hold at 23 °C, dry, unless said otherwise.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Card {
    /// Short family name, for example `PA12-CF15`.
    pub name: String,
    /// The family in words.
    pub family: String,
    /// Mass per volume of the solid plastic.
    pub density_kg_m3: Value,
    /// Elastic constants.
    pub stiffness: Stiffness,
    /// Short-term strength.
    pub strength: Strength,
    /// Strength under repeated load.
    pub fatigue: Fatigue,
    /// What heat takes away.
    pub temperature: Temperature,
    /// What water takes away.
    pub moisture: Moisture,
}

/// Transversely isotropic elastic constants about the build direction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stiffness {
    /// Young's modulus along the beads.
    pub bead_mpa: Value,
    /// Young's modulus in the layer plane, square to the beads.
    pub across_mpa: Value,
    /// Young's modulus along the build direction.
    pub layer_mpa: Value,
    /// Shear modulus between layers.
    pub layer_shear_mpa: Value,
    /// Poisson's ratio in the layer plane.
    pub poisson_ratio: Value,
}

/// Mean short-term strength by direction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Strength {
    /// Tension along the beads.
    pub bead_mpa: Value,
    /// Tension in the layer plane, square to the beads.
    pub across_mpa: Value,
    /// Tension along the build direction: the bond between layers.
    pub layer_mpa: Value,
    /// Shear between layers.
    pub layer_shear_mpa: Value,
    /// Compression, in every direction.
    pub compression_mpa: Value,
    /// Mean pressure between a pin and its bore that the plastic carries without lasting ovality.
    pub bearing_pressure_mpa: Value,
    /// Standard deviation of log10 strength from print to print.
    pub scatter_log10: Value,
}

/// Stress-life line `N = 1e6 (S / S_a)^k` of the amplitude `S_a` at zero mean (Basquin 1910).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fatigue {
    /// Amplitude for one million fully reversed cycles over tensile strength, stress in the layer plane.
    pub ratio_1e6: Value,
    /// Exponent k, stress in the layer plane.
    pub exponent: Value,
    /// Amplitude for one million fully reversed cycles over layer strength, stress across layers.
    pub layer_ratio_1e6: Value,
    /// Exponent k, stress across layers.
    pub layer_exponent: Value,
    /// Walker's exponent: 1 ignores the mean stress, 0.5 is Smith, Watson and Topper.
    pub walker_exponent: Value,
    /// Standard deviation of log10 life at one stress.
    pub scatter_log10: Value,
}

/// Loss of stiffness and strength with temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Temperature {
    /// Glass transition of the polymer.
    pub glass_transition_c: Value,
    /// Temperature above which a loaded part does not keep its shape (of the order of ISO 75 at 1.8 MPa).
    pub softening_c: Value,
    /// Share kept at each temperature, rising temperature, falling share.
    pub retention: Retention,
}

/// Share of the 23 °C value kept at each listed temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Retention {
    /// How well the curve is founded.
    pub source: Source,
    /// DOI, standard or handbook behind a published curve.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reference: Option<String>,
    /// Relative standard uncertainty of the shares.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spread: Option<f64>,
    /// How the curve was derived.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// The curve.
    pub points: Vec<RetentionPoint>,
}

/// One point of a [`Retention`] curve.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RetentionPoint {
    /// Temperature.
    pub temperature_c: f64,
    /// Strength over its 23 °C value.
    pub strength: f64,
    /// Stiffness over its 23 °C value.
    pub stiffness: f64,
}

/// Share of the dry value kept when the part has taken up water in a 50 % humid room.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Moisture {
    /// Strength conditioned over dry.
    pub conditioned_strength: Value,
    /// Stiffness conditioned over dry.
    pub conditioned_stiffness: Value,
}
