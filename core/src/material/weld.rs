use serde::{Deserialize, Serialize};

use super::error::MaterialError;
use super::value::Value;

/// How layers weld to each other: one interface, warm for a time.
///
/// The share healed is the fourth root of the time spent above [`Weld::stop_c`] over the time it needs at that temperature,
/// at most 1. The strength across layers rises with it from `floor` to 1, as a share of that of layers which healed in full.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Weld {
    /// Temperature at which [`Weld::reference_s`] holds.
    pub reference_c: Value,
    /// Time to heal in full there.
    pub reference_s: Value,
    /// How fast healing quickens with temperature.
    pub activation_kj_mol: Value,
    /// Below it nothing heals: the glass transition, or where crystals form.
    pub stop_c: Value,
    /// Strength without healing over strength healed in full.
    pub floor: Value,
    /// Usual settings of a print.
    pub usual: UsualPrint,
}

/// What such a plastic is usually printed with.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct UsualPrint {
    /// Plastic as it leaves the nozzle.
    pub nozzle_c: f64,
    /// Bed.
    pub bed_c: f64,
    /// Air round the part.
    pub chamber_c: f64,
    /// Fan on the part.
    pub fan_percent: f64,
}

impl Weld {
    /// Settings that can be; values are looked at with all others of a card.
    pub(super) fn checked(&self, card: &str) -> Result<(), MaterialError> {
        let usual = &self.usual;
        let values = [
            ("usual nozzle temperature", usual.nozzle_c, self.stop_c.value, 600.0),
            ("usual bed temperature", usual.bed_c, 0.0, 400.0),
            ("usual chamber temperature", usual.chamber_c, 0.0, 400.0),
            ("usual fan", usual.fan_percent, 0.0, 100.0),
        ];
        // What is no number lies in no range.
        match values.into_iter().find(|&(_, value, low, high)| !(low..=high).contains(&value)) {
            Some((what, value, ..)) => Err(MaterialError::Implausible { card: card.into(), what: what.into(), value }),
            None => Ok(()),
        }
    }
}
