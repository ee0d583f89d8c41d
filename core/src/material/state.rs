use nalgebra::Vector3;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::card::{Card, LossCurve, Retention};
use super::value::Value;
use crate::field::{FieldError, Stiffness};
use crate::units::ZERO_C;

/// Water in the plastic.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum MoistureState {
    /// Dried after printing and kept dry.
    Dry,
    /// In balance with a room at 50 % humidity.
    #[default]
    Conditioned,
}

/// A material at one temperature and moisture, in SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MaterialState {
    /// Density of the solid plastic, kg/m³.
    pub density: f64,
    /// Young's modulus along the beads, Pa.
    pub bead_modulus: f64,
    /// Young's modulus in the layer plane across the beads, Pa.
    pub across_modulus: f64,
    /// Young's modulus along the build direction, Pa.
    pub layer_modulus: f64,
    /// Shear modulus between layers, Pa.
    pub layer_shear_modulus: f64,
    /// Poisson's ratio in the layer plane.
    pub poisson_ratio: f64,
    /// Tensile strength along the beads, Pa.
    pub bead_strength: f64,
    /// Tensile strength in the layer plane across the beads, Pa.
    pub across_strength: f64,
    /// Tensile strength across layers, Pa.
    pub layer_strength: f64,
    /// Shear strength between layers, Pa.
    pub layer_shear_strength: f64,
    /// Compression strength, Pa.
    pub compression_strength: f64,
    /// Permissible mean pressure of a pin on its bore, Pa.
    pub bearing_pressure: f64,
    /// Standard deviation of log10 strength.
    pub strength_scatter: f64,
    /// Fully reversed amplitude at a million cycles over strength, in the layer plane.
    pub fatigue_ratio: f64,
    /// Exponent of the stress-life line, in the layer plane.
    pub fatigue_exponent: f64,
    /// The same ratio across layers.
    pub layer_fatigue_ratio: f64,
    /// The same exponent across layers.
    pub layer_fatigue_exponent: f64,
    /// Walker's exponent.
    pub walker_exponent: f64,
    /// Standard deviation of log10 life.
    pub life_scatter: f64,
    /// Kelvin left until the material softens; negative beyond.
    pub softening_margin: f64,
    /// Conductivity along the beads, W/(m K).
    pub bead_conductivity: f64,
    /// Conductivity along the build direction, W/(m K).
    pub layer_conductivity: f64,
    /// Specific heat, J/(kg K).
    pub specific_heat: f64,
    /// Expansion by heat along the beads, 1/K.
    pub bead_expansion: f64,
    /// Expansion by heat in the layer plane across the beads, 1/K.
    pub across_expansion: f64,
    /// Expansion by heat along the build direction, 1/K.
    pub layer_expansion: f64,
    /// Loss over storage modulus at an engine's frequency.
    pub loss_factor: f64,
}

impl Card {
    /// Temperature above which a loaded part does not keep its shape, K.
    pub fn softening(&self) -> f64 {
        self.temperature.softening_c.value + ZERO_C
    }

    /// Share of strength and of stiffness that heat leaves at `temperature` (K), 1 at 23 °C.
    pub fn share_at(&self, temperature: f64) -> (f64, f64) {
        let celsius = temperature - ZERO_C;
        let retention = &self.temperature.retention;
        if celsius < self.temperature.softening_c.value { retention.at(celsius) } else { retention.last() }
    }

    /// The material at `temperature` (K).
    ///
    /// Strength and stiffness follow the retention curve, linear between its points and constant beyond them; at and
    /// above the softening temperature the last point of the curve holds, because a loaded part no longer keeps its
    /// shape there whatever a short test says.
    pub fn at(&self, temperature: f64, moisture: MoistureState) -> MaterialState {
        const MPA: f64 = 1e6;
        let celsius = temperature - ZERO_C;
        let softening_margin = self.temperature.softening_c.value - celsius;
        let (mut strength, mut stiffness) = self.share_at(temperature);
        if moisture == MoistureState::Conditioned {
            strength *= self.moisture.conditioned_strength.value;
            stiffness *= self.moisture.conditioned_stiffness.value;
        }
        MaterialState {
            density: self.density_kg_m3.value,
            bead_modulus: self.stiffness.bead_mpa.value * MPA * stiffness,
            across_modulus: self.stiffness.across_mpa.value * MPA * stiffness,
            layer_modulus: self.stiffness.layer_mpa.value * MPA * stiffness,
            layer_shear_modulus: self.stiffness.layer_shear_mpa.value * MPA * stiffness,
            poisson_ratio: self.stiffness.poisson_ratio.value,
            bead_strength: self.strength.bead_mpa.value * MPA * strength,
            across_strength: self.strength.across_mpa.value * MPA * strength,
            layer_strength: self.strength.layer_mpa.value * MPA * strength,
            layer_shear_strength: self.strength.layer_shear_mpa.value * MPA * strength,
            compression_strength: self.strength.compression_mpa.value * MPA * strength,
            bearing_pressure: self.strength.bearing_pressure_mpa.value * MPA * strength,
            strength_scatter: self.strength.scatter_log10.value,
            fatigue_ratio: self.fatigue.ratio_1e6.value,
            fatigue_exponent: self.fatigue.exponent.value,
            layer_fatigue_ratio: self.fatigue.layer_ratio_1e6.value,
            layer_fatigue_exponent: self.fatigue.layer_exponent.value,
            walker_exponent: self.fatigue.walker_exponent.value,
            life_scatter: self.fatigue.scatter_log10.value,
            softening_margin,
            bead_conductivity: self.thermal.conductivity_bead_w_m_k.value,
            layer_conductivity: self.thermal.conductivity_layer_w_m_k.value,
            specific_heat: self.thermal.specific_heat_j_kg_k.value,
            bead_expansion: self.thermal.expansion_bead_per_k.value,
            across_expansion: self.thermal.expansion_across_per_k.value,
            layer_expansion: self.thermal.expansion_layer_per_k.value,
            loss_factor: self.thermal.loss_factor.at(celsius),
        }
    }
}

impl MaterialState {
    /// Young's modulus in the layer plane where bead directions mix, Pa.
    pub fn in_plane_modulus(&self) -> f64 {
        f64::midpoint(self.bead_modulus, self.across_modulus)
    }

    /// Young's modulus along a line whose cosine with the build direction is `cosine`, Pa.
    ///
    /// Transverse isotropy about the build direction (Lekhnitskii, Theory of Elasticity of an Anisotropic Body).
    pub fn modulus_along(&self, cosine: f64) -> f64 {
        let up = cosine * cosine;
        let level = 1.0 - up;
        let in_plane = self.in_plane_modulus();
        let compliance = level * level / in_plane
            + up * up / self.layer_modulus
            + up * level * (1.0 / self.layer_shear_modulus - 2.0 * self.poisson_ratio / in_plane);
        1.0 / compliance
    }

    /// Conductivity along a line whose cosine with the build direction is `cosine`, W/(m K): component of the tensor,
    /// beads along the line as far as the layer plane allows.
    pub fn conductivity_along(&self, cosine: f64) -> f64 {
        let up = cosine * cosine;
        self.bead_conductivity * (1.0 - up) + self.layer_conductivity * up
    }

    /// Expansion by heat along such a line, 1/K, likewise.
    pub fn expansion_along(&self, cosine: f64) -> f64 {
        let up = cosine * cosine;
        self.bead_expansion * (1.0 - up) + self.layer_expansion * up
    }

    /// Expansion by heat in the layer plane where bead directions mix, 1/K.
    pub fn in_plane_expansion(&self) -> f64 {
        f64::midpoint(self.bead_expansion, self.across_expansion)
    }

    /// Stiffness of the solid, its layers stacked along `build`.
    ///
    /// Bead directions change from layer to layer, so that the layer plane counts as isotropic with the mean modulus.
    pub(crate) fn stiffness(&self, build: &Vector3<f64>) -> Result<Stiffness, FieldError> {
        let moduli = [self.in_plane_modulus(), self.layer_modulus];
        Stiffness::transverse(moduli, self.layer_shear_modulus, [self.poisson_ratio; 2], build)?.with_expansion(
            self.in_plane_expansion(),
            self.layer_expansion,
            build,
        )
    }

    /// Density times specific heat, J/(m³ K).
    pub fn volumetric_heat(&self) -> f64 {
        self.density * self.specific_heat
    }
}

impl LossCurve {
    /// Loss factor at a temperature in °C: linear between points, constant beyond them.
    pub fn at(&self, celsius: f64) -> f64 {
        let upper = self.points.partition_point(|p| p.temperature_c <= celsius);
        let (Some(first), Some(last)) = (self.points.first(), self.points.last()) else { return 0.0 };
        if upper == 0 {
            return first.loss_factor;
        }
        let Some(above) = self.points.get(upper) else { return last.loss_factor };
        let below = &self.points[upper - 1];
        let share = (celsius - below.temperature_c) / (above.temperature_c - below.temperature_c);
        below.loss_factor + (above.loss_factor - below.loss_factor) * share
    }
}

impl Retention {
    /// Share of strength and of stiffness kept at a temperature in °C.
    pub fn at(&self, celsius: f64) -> (f64, f64) {
        self.powered(self.of_curve(celsius))
    }

    /// Both shares to their powers.
    fn powered(&self, (strength, stiffness): (f64, f64)) -> (f64, f64) {
        let to = |share: f64, power: &Option<Value>| power.as_ref().map_or(share, |p| libm::pow(share, p.value));
        (to(strength, &self.strength_power), to(stiffness, &self.stiffness_power))
    }

    fn of_curve(&self, celsius: f64) -> (f64, f64) {
        let upper = self.points.partition_point(|p| p.temperature_c <= celsius);
        let (Some(first), Some(last)) = (self.points.first(), self.points.last()) else { return (0.0, 0.0) };
        if upper == 0 {
            return (first.strength, first.stiffness);
        }
        let Some(above) = self.points.get(upper) else { return (last.strength, last.stiffness) };
        let below = &self.points[upper - 1];
        let share = (celsius - below.temperature_c) / (above.temperature_c - below.temperature_c);
        (
            below.strength + (above.strength - below.strength) * share,
            below.stiffness + (above.stiffness - below.stiffness) * share,
        )
    }

    fn last(&self) -> (f64, f64) {
        self.powered(self.points.last().map_or((0.0, 0.0), |p| (p.strength, p.stiffness)))
    }
}
