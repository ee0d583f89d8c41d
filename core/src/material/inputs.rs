use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::card::Card;
use super::value::Value;

/// What a value of a card decides, as far as bench runs can tell it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Bears {
    /// How much a part bears.
    Strength,
    /// How long it bears it.
    Life,
}

/// Name of the energy that says how fast strength falls with the time a load lasts.
pub(crate) const RUPTURE_ENERGY: &str = "activation energy of rupture";

/// Names of the powers of the curves of strength and stiffness over temperature.
pub(crate) const HEAT_POWERS: [&str; 2] = ["power of strength kept warm", "power of stiffness kept warm"];

/// What a number of a card is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Input {
    /// Its name in words.
    pub name: &'static str,
    /// Its unit, `1` for pure numbers.
    pub unit: &'static str,
    /// What it decides.
    pub bears: Bears,
    /// Whether it is a share or the scatter of a logarithm, which stay below one.
    pub share: bool,
}

impl Input {
    fn of(name: &'static str, unit: &'static str, bears: Bears) -> Self {
        Self { name, unit, bears, share: unit == "1" }
    }

    /// A power of a curve.
    fn power(name: &'static str) -> Self {
        Self { name, unit: "1", bears: Bears::Strength, share: false }
    }

    /// A pure number that may be over one.
    fn exponent(name: &'static str) -> Self {
        Self { name, unit: "1", bears: Bears::Life, share: false }
    }
}

/// Calls `visit` with every number of a card, in a fixed order.
///
/// One list serves validation, the assumptions of a report and the study of what matters most.
pub fn visit_values<'card>(card: &'card mut Card, mut visit: impl FnMut(Input, &'card mut Value)) {
    let Card { density_kg_m3, stiffness, strength, fatigue, temperature, moisture, thermal, creep, weld, .. } = card;
    visit(Input::of("density", "kg/m³", Bears::Strength), density_kg_m3);
    visit(Input::of("stiffness along beads", "MPa", Bears::Strength), &mut stiffness.bead_mpa);
    visit(Input::of("stiffness across beads", "MPa", Bears::Strength), &mut stiffness.across_mpa);
    visit(Input::of("stiffness across layers", "MPa", Bears::Strength), &mut stiffness.layer_mpa);
    visit(Input::of("shear stiffness between layers", "MPa", Bears::Strength), &mut stiffness.layer_shear_mpa);
    visit(Input::of("Poisson's ratio", "1", Bears::Strength), &mut stiffness.poisson_ratio);
    visit(Input::of("strength along beads", "MPa", Bears::Strength), &mut strength.bead_mpa);
    visit(Input::of("strength across beads", "MPa", Bears::Strength), &mut strength.across_mpa);
    visit(Input::of("strength across layers", "MPa", Bears::Strength), &mut strength.layer_mpa);
    visit(Input::of("shear strength between layers", "MPa", Bears::Strength), &mut strength.layer_shear_mpa);
    visit(Input::of("compression strength", "MPa", Bears::Strength), &mut strength.compression_mpa);
    visit(Input::of("bearing pressure", "MPa", Bears::Strength), &mut strength.bearing_pressure_mpa);
    visit(Input::of("scatter of strength (log10)", "1", Bears::Strength), &mut strength.scatter_log10);
    visit(Input::of("fatigue ratio at a million cycles", "1", Bears::Life), &mut fatigue.ratio_1e6);
    visit(Input::exponent("fatigue exponent"), &mut fatigue.exponent);
    visit(Input::of("fatigue ratio across layers", "1", Bears::Life), &mut fatigue.layer_ratio_1e6);
    visit(Input::exponent("fatigue exponent across layers"), &mut fatigue.layer_exponent);
    visit(Input::of("Walker exponent", "1", Bears::Life), &mut fatigue.walker_exponent);
    visit(Input::of("scatter of life (log10)", "1", Bears::Life), &mut fatigue.scatter_log10);
    visit(Input::of("glass transition", "°C", Bears::Strength), &mut temperature.glass_transition_c);
    visit(Input::of("softening temperature", "°C", Bears::Strength), &mut temperature.softening_c);
    if let Some(power) = &mut temperature.retention.strength_power {
        visit(Input::power(HEAT_POWERS[0]), power);
    }
    if let Some(power) = &mut temperature.retention.stiffness_power {
        visit(Input::power(HEAT_POWERS[1]), power);
    }
    visit(Input::of("strength kept when conditioned", "1", Bears::Strength), &mut moisture.conditioned_strength);
    visit(Input::of("stiffness kept when conditioned", "1", Bears::Strength), &mut moisture.conditioned_stiffness);
    visit(Input::of("conductivity along beads", "W/(m K)", Bears::Strength), &mut thermal.conductivity_bead_w_m_k);
    visit(Input::of("conductivity across layers", "W/(m K)", Bears::Strength), &mut thermal.conductivity_layer_w_m_k);
    visit(Input::of("specific heat", "J/(kg K)", Bears::Strength), &mut thermal.specific_heat_j_kg_k);
    visit(Input::of("expansion along beads", "1/K", Bears::Strength), &mut thermal.expansion_bead_per_k);
    visit(Input::of("expansion across beads", "1/K", Bears::Strength), &mut thermal.expansion_across_per_k);
    visit(Input::of("expansion across layers", "1/K", Bears::Strength), &mut thermal.expansion_layer_per_k);
    visit(Input::of("attempt time of rupture", "s", Bears::Life), &mut creep.attempt_time_s);
    visit(Input::of(RUPTURE_ENERGY, "kJ/mol", Bears::Life), &mut creep.activation_energy_kj_mol);
    visit(Input::of("time of a short-term test", "s", Bears::Life), &mut creep.short_test_s);
    visit(Input::of("strain scale of creep", "1", Bears::Strength), &mut creep.strain_scale);
    visit(Input::of("stress scale of creep", "MPa", Bears::Strength), &mut creep.stress_scale_mpa);
    visit(Input::of("time exponent of creep", "1", Bears::Strength), &mut creep.time_exponent);
    visit(Input::of("shift energy of creep", "kJ/mol", Bears::Strength), &mut creep.shift_energy_kj_mol);
    if let Some(weld) = weld {
        visit(Input::of("reference temperature of the weld", "°C", Bears::Strength), &mut weld.reference_c);
        visit(Input::of("healing time of the weld there", "s", Bears::Strength), &mut weld.reference_s);
        visit(Input::of("activation energy of the weld", "kJ/mol", Bears::Strength), &mut weld.activation_kj_mol);
        visit(Input::of("temperature where the weld stops healing", "°C", Bears::Strength), &mut weld.stop_c);
        visit(Input::of("strength of a weld that has not healed", "1", Bears::Strength), &mut weld.floor);
    }
}

impl Card {
    /// Calls `visit` with every number of the card, in a fixed order.
    pub fn visit_values<'card>(&'card mut self, visit: impl FnMut(Input, &'card mut Value)) {
        visit_values(self, visit);
    }
}
