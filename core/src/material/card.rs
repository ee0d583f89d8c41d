use serde::{Deserialize, Serialize};

use super::correlation::Correlation;
use super::source::Source;
use super::value::Value;
use super::weld::Weld;

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
    pub stiffness: CardStiffness,
    /// Short-term strength.
    pub strength: Strength,
    /// Strength under repeated load.
    pub fatigue: Fatigue,
    /// What heat takes away.
    pub temperature: Temperature,
    /// What water takes away.
    pub moisture: Moisture,
    /// How it carries, keeps and makes heat.
    pub thermal: Thermal,
    /// How it gives under load that lasts.
    pub creep: Creep,
    /// How its layers weld; without it the strength across layers is that of the card, whatever the print.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weld: Option<Weld>,
    /// How values that were drawn together go together; without it each is off by itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub correlation: Option<Correlation>,
}

/// Transversely isotropic elastic constants about the build direction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CardStiffness {
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
    /// What published tests found, for comparison; the values above do not follow from it by themselves.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tests: Vec<FatigueTest>,
}

/// One point of a published stress-life test.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FatigueTest {
    /// DOI or where it was printed.
    pub reference: String,
    /// Specimens: how made, which way loaded.
    pub specimens: String,
    /// Highest stress of the cycle.
    pub maximum_mpa: f64,
    /// Least over highest stress.
    pub stress_ratio: f64,
    /// Tensile strength of the same specimens.
    pub strength_mpa: f64,
    /// Cycles reached.
    pub cycles: f64,
    /// Share of specimens that reach them.
    pub survival: f64,
    /// Loading frequency, where it is stated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub frequency_hz: Option<f64>,
    /// Temperature.
    pub temperature_c: f64,
}

impl FatigueTest {
    /// Amplitude that does as much harm at zero mean, over the tensile strength, by Walker's rule with an exponent:
    /// `S_max ((1 - R) / 2)^w`.
    pub fn reversed_over_strength(&self, walker_exponent: f64) -> f64 {
        self.maximum_mpa / self.strength_mpa * libm::pow(0.5 * (1.0 - self.stress_ratio), walker_exponent)
    }
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
    /// Power of the curve of strength; 1 leaves it as it is, and so does none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strength_power: Option<Value>,
    /// Power of the curve of stiffness, likewise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stiffness_power: Option<Value>,
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

/// Conduction, storage, expansion and loss.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Thermal {
    /// Conductivity along the beads.
    pub conductivity_bead_w_m_k: Value,
    /// Conductivity along the build direction.
    pub conductivity_layer_w_m_k: Value,
    /// Specific heat.
    pub specific_heat_j_kg_k: Value,
    /// Expansion by heat along the beads.
    pub expansion_bead_per_k: Value,
    /// Expansion by heat in the layer plane, square to the beads.
    pub expansion_across_per_k: Value,
    /// Expansion by heat along the build direction.
    pub expansion_layer_per_k: Value,
    /// Loss over storage modulus at about 100 Hz, an engine's frequency.
    pub loss_factor: LossCurve,
}

/// Loss factor at each listed temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LossCurve {
    /// How well the curve is founded.
    pub source: Source,
    /// DOI, standard or handbook behind a published curve.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reference: Option<String>,
    /// Relative standard uncertainty of the factors.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spread: Option<f64>,
    /// How the curve was derived.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// The curve, rising temperature.
    pub points: Vec<LossPoint>,
}

/// One point of a [`LossCurve`].
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LossPoint {
    /// Temperature.
    pub temperature_c: f64,
    /// Loss modulus over storage modulus.
    pub loss_factor: f64,
}

/// Rupture by Zhurkov's law and strain by Findley's.
///
/// The activation volume of rupture is not listed: the law goes through the short-term strength at each temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Creep {
    /// Zhurkov's attempt time.
    pub attempt_time_s: Value,
    /// Zhurkov's activation energy without stress.
    pub activation_energy_kj_mol: Value,
    /// Time to failure of the test that the card's strengths come from.
    pub short_test_s: Value,
    /// Findley's strain scale along the beads, at one hour and 23 °C.
    pub strain_scale: Value,
    /// Findley's stress scale along the beads.
    pub stress_scale_mpa: Value,
    /// Findley's time exponent.
    pub time_exponent: Value,
    /// Activation energy of the time-temperature shift.
    pub shift_energy_kj_mol: Value,
}
