use super::assess::joined;
use super::assessment::Assessment;
use super::piece::Piece;
use super::pressed::EyeState;
use super::setting::Setting;
use super::stressing::Stressing;
use super::temperatures::Temperatures;
use crate::job::Scenario;
use crate::material::Card;
use crate::verdict::{Founding, founded};

/// Lowers each value of the material card by its uncertainty and looks at the margin again, where each mode is worst.
pub fn founding(
    stressing: &Stressing<'_>,
    scenario: &Scenario,
    temperatures: &Temperatures,
    assessment: &Assessment,
) -> Founding {
    let margin_of = |card: &Card, pieces: &[Piece]| {
        let states = EyeState::both(stressing.model, scenario, card, temperatures);
        let stressing = stressing.with_eyes(states);
        let changed = joined(&Setting::new(&stressing, scenario, card, temperatures), pieces);
        changed.strength.margin().max(1e-9)
    };
    let margin = assessment.strength.margin();
    let pieces = assessment.governing_pieces();
    founded(&scenario.card, margin, |card| margin_of(card, &pieces))
}
