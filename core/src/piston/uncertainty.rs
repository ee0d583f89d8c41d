use super::assess::PistonCase;
use super::speed::at;
use crate::verdict::{Founding, founded};

/// How well founded the margin is.
pub fn piston_founding(case: &PistonCase<'_>, margin: f64) -> Founding {
    founded(&case.scenario.card, margin, |card| {
        let changed = at(case, card, case.factor).ok().flatten();
        changed.map_or(1e-9, |all| all.strength.margin().max(1e-9))
    })
}
