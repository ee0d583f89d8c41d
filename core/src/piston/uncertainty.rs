use super::assess::PistonCase;
use super::speed::at;
use crate::verdict::{RunsAt, Uncertainty, uncertainty_of};

/// How sure the margin is.
pub fn piston_uncertainty(case: &PistonCase<'_>, margin: f64) -> Uncertainty {
    let kelvin = case.before_softening(case.warm.crown_mean()).max(case.boss_temperature());
    let runs = RunsAt::new(kelvin, &case.loading.duty, case.loading.cycles(case.factor).into_iter());
    uncertainty_of(&case.scenario.card, runs, margin, |card| {
        let changed = at(case, card, case.factor).ok().flatten();
        changed.map_or(1e-9, |all| all.strength.margin().max(1e-9))
    })
}
