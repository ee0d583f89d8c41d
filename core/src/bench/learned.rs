use libm::{exp, pow};

use super::update::Belief;
use crate::material::{Card, Value};

/// Values of a card that a factor on strength moves.
fn strengths(card: &mut Card) -> [&mut Value; 6] {
    let of = &mut card.strength;
    [
        &mut of.bead_mpa,
        &mut of.across_mpa,
        &mut of.layer_mpa,
        &mut of.layer_shear_mpa,
        &mut of.compression_mpa,
        &mut of.bearing_pressure_mpa,
    ]
}

/// Values of a card that a factor on life moves, each with the power of life that it moves by.
///
/// Fatigue ratios by their exponents; both times of rupture together, so that its law keeps its slope and every time to
/// rupture grows alike.
fn lives(card: &mut Card) -> [(&mut Value, f64); 4] {
    let (of, creep) = (&mut card.fatigue, &mut card.creep);
    [
        (&mut of.ratio_1e6, 1.0 / of.exponent.value),
        (&mut of.layer_ratio_1e6, 1.0 / of.layer_exponent.value),
        (&mut creep.attempt_time_s, 1.0),
        (&mut creep.short_test_s, 1.0),
    ]
}

/// A card with a factor on all strengths, and one on life at one strength.
#[must_use]
pub(crate) fn scaled(card: &Card, strength: f64, life: f64) -> Card {
    let mut card = card.clone();
    for value in strengths(&mut card) {
        value.value *= strength;
    }
    for (value, power) in lives(&mut card) {
        value.value *= pow(life, power);
    }
    card
}

/// What a log taught of a family of parts, ready for a card.
#[derive(Debug, Clone, PartialEq)]
pub struct Learned {
    /// Runs behind it.
    pub runs: usize,
    /// What the card left open.
    pub prior: Belief,
    /// What the runs leave of that.
    pub posterior: Belief,
}

impl Learned {
    /// Factor on strength.
    pub fn strength_factor(&self) -> f64 {
        exp(self.posterior.mean[0])
    }

    /// Factor on life.
    pub fn life_factor(&self) -> f64 {
        exp(self.posterior.mean[1])
    }

    /// The card with both factors in it and its uncertainty narrowed.
    ///
    /// A factor on life goes into the fatigue ratios by their exponents, and into the times of rupture under lasting load.
    #[must_use]
    pub fn applied(&self, card: &Card) -> Card {
        let (strength, life) = (self.strength_factor(), self.life_factor());
        let mut card = scaled(card, strength, life);
        let (before, after) = (self.prior.deviations(), self.posterior.deviations());
        let narrowed = |k: usize| if before[k] > 0.0 { (after[k] / before[k]).min(1.0) } else { 1.0 };
        let note = format!(
            "Times what {} runs of the bench log taught: strength times {strength:.3}, life times {life:.3}.",
            self.runs
        );
        let tell = |value: &mut Value, narrowed: f64| {
            value.spread = Some(value.relative_spread() * narrowed);
            value.note = Some(value.note.take().map_or_else(|| note.clone(), |old| format!("{old} {note}")));
        };
        for value in strengths(&mut card) {
            tell(value, narrowed(0));
        }
        for (value, _) in lives(&mut card) {
            tell(value, narrowed(1));
        }
        // No amplitude for a million cycles lies above the strength.
        for ratio in [&mut card.fatigue.ratio_1e6, &mut card.fatigue.layer_ratio_1e6] {
            ratio.value = ratio.value.min(1.0);
        }
        let of = &mut card.fatigue;
        let energy = &mut card.creep.activation_energy_kj_mol;
        for value in [&mut of.exponent, &mut of.layer_exponent, &mut of.walker_exponent, energy] {
            value.spread = Some(value.relative_spread() * narrowed(1));
        }
        card
    }
}
