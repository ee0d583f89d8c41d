use crate::material::Weld;
use crate::units::ZERO_C;

/// Gas constant, J/(mol K).
const GAS: f64 = 8.314_462_618;

/// How fast an interface heals, in SI units.
///
/// The time to heal in full follows Arrhenius's law, and what was healed is a sum over the time spent at each temperature
/// (Yang & Pitchumani 2002, Macromolecules 35, 3213, abstract); strength follows the fourth root of time (Wool & O'Connor 1981,
/// from memory).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Healing {
    /// Temperature at which `reference` holds, K.
    pub at: f64,
    /// Time to heal in full there, s.
    pub reference: f64,
    /// Activation energy over the gas constant, K.
    pub activation: f64,
    /// Below it nothing heals, K.
    pub stop: f64,
    /// Strength without healing over strength healed in full.
    pub floor: f64,
}

impl Healing {
    /// That of a card.
    pub fn of(weld: &Weld) -> Self {
        Self {
            at: weld.reference_c.value + ZERO_C,
            reference: weld.reference_s.value,
            activation: weld.activation_kj_mol.value * 1e3 / GAS,
            stop: weld.stop_c.value + ZERO_C,
            floor: weld.floor.value,
        }
    }

    /// Share of full healing that a second at a temperature (K) brings, 1/s.
    pub fn rate(&self, kelvin: f64) -> f64 {
        if kelvin < self.stop {
            return 0.0;
        }
        libm::exp(self.activation * (1.0 / self.at - 1.0 / kelvin)) / self.reference
    }

    /// Strength after a sum of such shares, over strength healed in full.
    pub fn strength(&self, healed: f64) -> f64 {
        let degree = libm::sqrt(libm::sqrt(healed.clamp(0.0, 1.0)));
        self.floor + (1.0 - self.floor) * degree
    }
}
