//! What the values of a material card can be, and what is usual for printed plastics.

use super::card::Card;
use super::error::MaterialError;
use super::inputs::visit_values;

/// One value of a card: its name, what is refused outside, what is warned of outside.
type Row = (&'static str, (f64, f64), (f64, f64));

/// Usual ranges hold the embedded cards and what data sheets of filled and unfilled printed plastics have (common practice,
/// no source); possible ones are so wide that only another unit lies beyond.
const ROWS: [Row; 43] = [
    ("density", (100.0, 10_000.0), (800.0, 2500.0)),
    ("stiffness along beads", (10.0, 300_000.0), (400.0, 80_000.0)),
    ("stiffness across beads", (10.0, 300_000.0), (300.0, 40_000.0)),
    ("stiffness across layers", (10.0, 300_000.0), (300.0, 30_000.0)),
    ("shear stiffness between layers", (3.0, 100_000.0), (80.0, 10_000.0)),
    ("Poisson's ratio", (0.01, 0.5), (0.15, 0.49)),
    ("strength along beads", (0.5, 3000.0), (12.0, 700.0)),
    ("strength across beads", (0.3, 3000.0), (6.0, 300.0)),
    ("strength across layers", (0.1, 2000.0), (3.0, 200.0)),
    ("shear strength between layers", (0.1, 2000.0), (2.0, 150.0)),
    ("compression strength", (0.5, 3000.0), (12.0, 500.0)),
    ("bearing pressure", (0.2, 2000.0), (5.0, 250.0)),
    ("scatter of strength (log10)", (1e-4, 0.5), (0.008, 0.15)),
    ("fatigue ratio at a million cycles", (1e-6, 1.0), (0.03, 0.6)),
    ("fatigue exponent", (1.0, 100.0), (3.5, 30.0)),
    ("fatigue ratio across layers", (1e-6, 1.0), (0.02, 0.6)),
    ("fatigue exponent across layers", (1.0, 100.0), (3.5, 30.0)),
    ("Walker exponent", (0.01, 1.0), (0.1, 1.0)),
    ("scatter of life (log10)", (1e-3, 1.0), (0.08, 0.9)),
    ("glass transition", (-150.0, 420.0), (-60.0, 300.0)),
    ("softening temperature", (20.0, 450.0), (40.0, 320.0)),
    ("power of strength kept warm", (0.05, 20.0), (0.4, 2.5)),
    ("power of stiffness kept warm", (0.05, 20.0), (0.4, 2.5)),
    ("strength kept when conditioned", (0.05, 1.0), (0.3, 1.0)),
    ("stiffness kept when conditioned", (0.03, 1.0), (0.2, 1.0)),
    ("conductivity along beads", (0.01, 500.0), (0.08, 20.0)),
    ("conductivity across layers", (0.01, 500.0), (0.08, 10.0)),
    ("specific heat", (200.0, 5000.0), (700.0, 2600.0)),
    ("expansion along beads", (1e-8, 1e-3), (5e-7, 2.5e-4)),
    ("expansion across beads", (1e-7, 1e-3), (1e-5, 4e-4)),
    ("expansion across layers", (1e-7, 1e-3), (1e-5, 6e-4)),
    // A card that knows its bench runs has life in it.
    ("attempt time of rupture", (1e-40, 1e-2), (1e-18, 1e-8)),
    ("activation energy of rupture", (10.0, 1000.0), (70.0, 350.0)),
    ("time of a short-term test", (1e-12, 1e9), (1e-3, 1e6)),
    ("strain scale of creep", (1e-8, 0.5), (1e-5, 0.05)),
    ("stress scale of creep", (0.05, 1000.0), (2.0, 150.0)),
    ("time exponent of creep", (1e-3, 1.0), (0.04, 0.5)),
    ("shift energy of creep", (5.0, 1000.0), (40.0, 350.0)),
    ("reference temperature of the weld", (-50.0, 600.0), (80.0, 450.0)),
    ("healing time of the weld there", (1e-6, 1e6), (0.01, 100.0)),
    ("activation energy of the weld", (1.0, 1000.0), (80.0, 600.0)),
    ("temperature where the weld stops healing", (-50.0, 600.0), (30.0, 350.0)),
    ("strength of a weld that has not healed", (1e-6, 1.0), (0.01, 0.6)),
];

/// Two values of a card that go together: the first over the second, what is usual, and why.
struct ValuePair {
    names: [&'static str; 2],
    usual: (f64, f64),
    reason: &'static str,
}

const PAIRS: [ValuePair; 7] = [
    ValuePair {
        names: ["strength across layers", "strength along beads"],
        usual: (0.05, 1.0),
        reason: "layers bond no better than the beads are strong",
    },
    ValuePair {
        names: ["strength across beads", "strength along beads"],
        usual: (0.1, 1.1),
        reason: "beads are strongest along themselves",
    },
    ValuePair {
        names: ["shear strength between layers", "strength across layers"],
        usual: (0.3, 1.5),
        reason: "layers shear off at half to all of what parts them",
    },
    ValuePair {
        names: ["compression strength", "strength along beads"],
        usual: (0.3, 3.0),
        reason: "plastics bear about as much pushed as pulled",
    },
    ValuePair {
        names: ["bearing pressure", "compression strength"],
        usual: (0.15, 1.2),
        reason: "a bore goes oval before the plastic is crushed",
    },
    ValuePair {
        names: ["strength along beads", "stiffness along beads"],
        usual: (0.003, 0.1),
        reason: "printed plastics break at 0.3 to 10 % of strain",
    },
    ValuePair {
        names: ["strength across layers", "stiffness across layers"],
        usual: (0.001, 0.1),
        reason: "printed plastics break at 0.1 to 10 % of strain",
    },
];

/// Share of the strength at 23 °C that a retention curve must have there.
const AT_ROOM: (f64, f64) = (0.9, 1.1);

/// A value of a card that is possible but unusual.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnusualValue {
    /// Its name.
    pub name: &'static str,
    /// What is unusual and what would be usual, as a sentence without its full stop.
    pub message: String,
}

/// Every value of a card with its name and unit.
fn values(card: &Card) -> Vec<(&'static str, &'static str, f64)> {
    let mut card = card.clone();
    let mut list = Vec::new();
    visit_values(&mut card, |input, value| list.push((input.name, input.unit, value.value)));
    list
}

fn within(value: f64, (low, high): (f64, f64)) -> bool {
    (low..=high).contains(&value)
}

fn told((low, high): (f64, f64), unit: &str) -> String {
    if unit == "1" { format!("{low} to {high}") } else { format!("{low} to {high} {unit}") }
}

fn with_unit(value: f64, unit: &str) -> String {
    if unit == "1" { format!("{value}") } else { format!("{value} {unit}") }
}

/// Refuses a card with a value that only another unit can explain.
pub(super) fn refuse_impossible(card: &Card) -> Result<(), MaterialError> {
    let found = values(card).into_iter().find_map(|(name, unit, value)| {
        let (_, possible, usual) = ROWS.iter().find(|row| row.0 == name)?;
        (!within(value, *possible)).then(|| MaterialError::Impossible {
            card: card.name.clone(),
            what: name,
            value: with_unit(value, unit),
            possible: told(*possible, unit),
            usual: told(*usual, unit),
        })
    });
    found.map_or(Ok(()), Err)
}

/// Values that are possible but unusual, alone or beside each other.
pub fn unusual_values(card: &Card) -> Vec<UnusualValue> {
    let values = values(card);
    let alone = values.iter().filter_map(|&(name, unit, value)| {
        let (_, _, usual) = ROWS.iter().find(|row| row.0 == name)?;
        let message = || {
            let (value, usual) = (with_unit(value, unit), told(*usual, unit));
            format!(
                "{name} of {value} in the material card is unusual; usual: {usual} (common practice); check its unit"
            )
        };
        (!within(value, *usual)).then(|| UnusualValue { name, message: message() })
    });
    let of = |name: &str| values.iter().find(|known| known.0 == name).copied();
    let together = PAIRS.iter().filter_map(|pair| {
        let [(name, unit, first), (other, other_unit, second)] = [of(pair.names[0])?, of(pair.names[1])?];
        let message = || {
            let (first, second) = (with_unit(first, unit), with_unit(second, other_unit));
            let reason = pair.reason;
            format!(
                "{name} of {first} with {other} of {second} in the material card is unusual: {reason} (common practice)"
            )
        };
        (!within(first / second, pair.usual)).then(|| UnusualValue { name, message: message() })
    });
    let room = card.share_at(super::creep_state::REFERENCE_TEMPERATURE).0;
    let curve = (!within(room, AT_ROOM)).then(|| UnusualValue {
        name: "strength kept at temperature",
        message: format!(
            "strength kept at 23 °C of {room:.3} in the material card is unusual: it is a share of the value at 23 °C, so 1 there"
        ),
    });
    alone.chain(together).chain(curve).collect()
}

impl Card {
    /// Values that are possible but unusual, alone or beside each other.
    pub fn unusual_values(&self) -> Vec<UnusualValue> {
        unusual_values(self)
    }
}
