use libm::{exp, pow};

use super::by_mode::ByQuantity;
use super::quantity::Quantity;
use super::update::Belief;
use crate::material::{Card, Value};

/// Values of a card that a factor on strength moves, each with the quantity that it belongs to.
fn strengths(card: &mut Card) -> [(&mut Value, Quantity); 6] {
    let of = &mut card.strength;
    [
        (&mut of.bead_mpa, Quantity::Beads),
        (&mut of.across_mpa, Quantity::Beads),
        (&mut of.layer_mpa, Quantity::Bond),
        (&mut of.layer_shear_mpa, Quantity::Bond),
        (&mut of.compression_mpa, Quantity::Pressed),
        (&mut of.bearing_pressure_mpa, Quantity::Pressed),
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
    scaled_by(card, &|quantity| if quantity == Quantity::Life { life } else { strength })
}

/// A card with a factor on each quantity.
fn scaled_by(card: &Card, factor: &dyn Fn(Quantity) -> f64) -> Card {
    let mut card = card.clone();
    for (value, quantity) in strengths(&mut card) {
        value.value *= factor(quantity);
    }
    let life = factor(Quantity::Life);
    for (value, power) in lives(&mut card) {
        value.value *= pow(life, power);
    }
    card
}

/// What was learned, and of what.
#[derive(Debug, Clone, PartialEq)]
enum Beliefs {
    /// One factor on all strengths and one on life: what the card left open, and what the runs leave of that.
    Two(Belief, Belief),
    /// A factor on each quantity, from runs whose failure mode is known.
    Each(Box<(ByQuantity, ByQuantity)>),
}

/// What a log taught of a family of parts, ready for a card.
#[derive(Debug, Clone, PartialEq)]
pub struct Learned {
    /// Runs behind it.
    runs: usize,
    beliefs: Beliefs,
}

impl Learned {
    /// Of one strength and life: what the card left open, and what the runs leave of that.
    pub fn of_two(runs: usize, prior: Belief, posterior: Belief) -> Self {
        Self { runs, beliefs: Beliefs::Two(prior, posterior) }
    }

    /// Of each quantity.
    pub fn of_each(runs: usize, prior: ByQuantity, posterior: ByQuantity) -> Self {
        Self { runs, beliefs: Beliefs::Each(Box::new((prior, posterior))) }
    }

    /// Factor on a quantity.
    pub fn factor(&self, quantity: Quantity) -> f64 {
        match &self.beliefs {
            Beliefs::Two(_, after) => exp(after.mean[usize::from(quantity == Quantity::Life)]),
            Beliefs::Each(both) => both.1.factor(quantity),
        }
    }

    /// What is left of its standard deviation.
    fn narrowed(&self, quantity: Quantity) -> f64 {
        let (before, after) = match &self.beliefs {
            Beliefs::Two(before, after) => {
                let k = usize::from(quantity == Quantity::Life);
                (before.deviations()[k], after.deviations()[k])
            }
            Beliefs::Each(both) => (both.0.deviation(quantity), both.1.deviation(quantity)),
        };
        if before > 0.0 { (after / before).min(1.0) } else { 1.0 }
    }

    /// What it comes to, in words.
    fn told(&self) -> String {
        let factors = match &self.beliefs {
            Beliefs::Two(..) => format!("strength times {:.3}", self.factor(Quantity::Beads)),
            Beliefs::Each(_) => {
                let each = [Quantity::Beads, Quantity::Bond, Quantity::Pressed];
                each.map(|quantity| format!("{} times {:.3}", quantity.words(), self.factor(quantity))).join(", ")
            }
        };
        let life = self.factor(Quantity::Life);
        format!("Times what {} runs of the bench log taught: {factors}, life times {life:.3}.", self.runs)
    }

    /// The card with all factors in it and its uncertainty narrowed.
    ///
    /// A factor on life goes into the fatigue ratios by their exponents, and into the times of rupture under lasting load.
    #[must_use]
    pub fn applied(&self, card: &Card) -> Card {
        let mut card = scaled_by(card, &|quantity| self.factor(quantity));
        let note = self.told();
        let tell = |value: &mut Value, narrowed: f64| {
            value.spread = Some(value.relative_spread() * narrowed);
            value.note = Some(value.note.take().map_or_else(|| note.clone(), |old| format!("{old} {note}")));
        };
        for (value, quantity) in strengths(&mut card) {
            tell(value, self.narrowed(quantity));
        }
        let life = self.narrowed(Quantity::Life);
        for (value, _) in lives(&mut card) {
            tell(value, life);
        }
        // No amplitude for a million cycles lies above the strength.
        for ratio in [&mut card.fatigue.ratio_1e6, &mut card.fatigue.layer_ratio_1e6] {
            ratio.value = ratio.value.min(1.0);
        }
        let of = &mut card.fatigue;
        let energy = &mut card.creep.activation_energy_kj_mol;
        for value in [&mut of.exponent, &mut of.layer_exponent, &mut of.walker_exponent, energy] {
            value.spread = Some(value.relative_spread() * life);
        }
        card
    }
}
