use super::assess::joined;
use super::assessment::Assessment;
use super::piece::Piece;
use super::pressed::EyeState;
use super::setting::Setting;
use super::stressing::Stressing;
use super::temperatures::Temperatures;
use crate::job::Scenario;
use crate::material::Card;
use crate::verdict::{RunsAt, Uncertainty, uncertainty_of};

/// Lowers each value of the material card by its uncertainty and looks at the margin again, where each mode is worst.
pub fn uncertainty(
    stressing: &Stressing<'_>,
    scenario: &Scenario,
    temperatures: &Temperatures,
    assessment: &Assessment,
) -> Uncertainty {
    let margin_of = |card: &Card, pieces: &[Piece]| {
        let states = EyeState::both(stressing.model, scenario, card, temperatures);
        let stressing = stressing.with_eyes(states);
        let changed = joined(&Setting::new(&stressing, scenario, card, temperatures), pieces);
        changed.strength.margin().max(1e-9)
    };
    let margin = assessment.strength.margin();
    let pieces = assessment.governing_pieces();
    let runs = RunsAt::new(temperatures.peak(), &stressing.loading.duty, stressing.cycles());
    uncertainty_of(&scenario.card, runs, margin, |card| margin_of(card, &pieces))
}
