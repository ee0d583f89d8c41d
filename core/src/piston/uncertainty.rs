use super::assess::PistonCase;
use super::speed::at;
use crate::verdict::{Uncertainty, uncertainty_of};

/// How sure the margin is.
pub fn piston_uncertainty(case: &PistonCase<'_>, margin: f64) -> Uncertainty {
    uncertainty_of(&case.scenario.card, margin, |card| {
        let changed = at(case, card, case.factor).ok().flatten();
        changed.map_or(1e-9, |all| all.strength.margin().max(1e-9))
    })
}
