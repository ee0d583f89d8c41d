use super::card::Card;
use super::value::Value;

/// Calls `visit` with the name, unit and value of every number of a card, in a fixed order.
///
/// One list serves validation, the assumptions of a report and the study of what matters most.
pub fn visit_values<'card>(card: &'card mut Card, mut visit: impl FnMut(&'static str, &'static str, &'card mut Value)) {
    let Card { density_kg_m3, stiffness, strength, fatigue, temperature, moisture, thermal, creep, .. } = card;
    visit("density", "kg/m³", density_kg_m3);
    visit("stiffness along beads", "MPa", &mut stiffness.bead_mpa);
    visit("stiffness across beads", "MPa", &mut stiffness.across_mpa);
    visit("stiffness across layers", "MPa", &mut stiffness.layer_mpa);
    visit("shear stiffness between layers", "MPa", &mut stiffness.layer_shear_mpa);
    visit("Poisson's ratio", "1", &mut stiffness.poisson_ratio);
    visit("strength along beads", "MPa", &mut strength.bead_mpa);
    visit("strength across beads", "MPa", &mut strength.across_mpa);
    visit("strength across layers", "MPa", &mut strength.layer_mpa);
    visit("shear strength between layers", "MPa", &mut strength.layer_shear_mpa);
    visit("compression strength", "MPa", &mut strength.compression_mpa);
    visit("bearing pressure", "MPa", &mut strength.bearing_pressure_mpa);
    visit("scatter of strength (log10)", "1", &mut strength.scatter_log10);
    visit("fatigue ratio at a million cycles", "1", &mut fatigue.ratio_1e6);
    visit("fatigue exponent", "1", &mut fatigue.exponent);
    visit("fatigue ratio across layers", "1", &mut fatigue.layer_ratio_1e6);
    visit("fatigue exponent across layers", "1", &mut fatigue.layer_exponent);
    visit("Walker exponent", "1", &mut fatigue.walker_exponent);
    visit("scatter of life (log10)", "1", &mut fatigue.scatter_log10);
    visit("glass transition", "°C", &mut temperature.glass_transition_c);
    visit("softening temperature", "°C", &mut temperature.softening_c);
    visit("strength kept when conditioned", "1", &mut moisture.conditioned_strength);
    visit("stiffness kept when conditioned", "1", &mut moisture.conditioned_stiffness);
    visit("conductivity along beads", "W/(m K)", &mut thermal.conductivity_bead_w_m_k);
    visit("conductivity across layers", "W/(m K)", &mut thermal.conductivity_layer_w_m_k);
    visit("specific heat", "J/(kg K)", &mut thermal.specific_heat_j_kg_k);
    visit("expansion along beads", "1/K", &mut thermal.expansion_bead_per_k);
    visit("expansion across beads", "1/K", &mut thermal.expansion_across_per_k);
    visit("expansion across layers", "1/K", &mut thermal.expansion_layer_per_k);
    visit("attempt time of rupture", "s", &mut creep.attempt_time_s);
    visit("activation energy of rupture", "kJ/mol", &mut creep.activation_energy_kj_mol);
    visit("time of a short-term test", "s", &mut creep.short_test_s);
    visit("strain scale of creep", "1", &mut creep.strain_scale);
    visit("stress scale of creep", "MPa", &mut creep.stress_scale_mpa);
    visit("time exponent of creep", "1", &mut creep.time_exponent);
    visit("shift energy of creep", "kJ/mol", &mut creep.shift_energy_kj_mol);
}
