use libm::exp;

use crate::coupon::regression::Regression;
use crate::coupon::test::CouponTest;
use crate::material::Card;

/// How a value of a card is moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Scale {
    /// As it is.
    Plain,
    /// By its logarithm.
    Log,
}

/// A value that is looked for.
#[derive(Clone, Copy)]
pub(super) struct Parameter {
    /// Where it stands.
    pub of: fn(&mut Card) -> &mut f64,
    /// How it is moved.
    pub scale: Scale,
}

impl Parameter {
    pub(super) fn plain(of: fn(&mut Card) -> &mut f64) -> Self {
        Self { of, scale: Scale::Plain }
    }

    pub(super) fn log(of: fn(&mut Card) -> &mut f64) -> Self {
        Self { of, scale: Scale::Log }
    }

    fn moved(self, card: &mut Card, by: f64) {
        let value = (self.of)(card);
        match self.scale {
            Scale::Plain => *value += by,
            Scale::Log => *value *= exp(by),
        }
    }

    /// A step of one, beside the value.
    fn unit(self, card: &Card) -> f64 {
        match self.scale {
            Scale::Plain => (self.of)(&mut card.clone()).abs().max(1e-12),
            Scale::Log => 1.0,
        }
    }
}

/// What a card was fitted to: what was measured, and what a check would take from a card, both as logarithms.
pub(super) type Law = fn(&Card, &CouponTest) -> Option<(f64, f64)>;

/// A card whose law goes through tests.
pub(super) struct Through {
    /// With the values looked for.
    pub card: Card,
    /// About them: one column a value, moved by its scale.
    pub fit: Regression,
}

/// Steps of differences, of a value or its logarithm: halves of the digits are lost in each.
const STEP: f64 = 1e-4;

/// Greatest move of a logarithm, or of a value over itself, at once.
const MOST: f64 = 0.7;

/// Moves values of a card until its law, as a check asks it, goes through the tests: Gauss and Newton's steps, each a
/// regression that knows run-outs.
///
/// Nothing where the tests do not tell the values.
pub(super) fn through(card: &Card, values: &[Parameter], tests: &[CouponTest], law: Law) -> Option<Through> {
    const STEPS: usize = 200;
    let outs: Vec<bool> = tests.iter().map(|test| test.run_out).collect();
    let mut card = card.clone();
    for _ in 0..STEPS {
        let gaps: Vec<f64> =
            pairs(&card, tests, law)?.into_iter().map(|(measured, by_card)| measured - by_card).collect();
        let fit = Regression::new(&slopes(&card, values, tests, law)?, &gaps, &outs)?;
        let sizes = values.iter().zip(&fit.coefficients).map(|(value, move_)| move_.abs() / value.unit(&card));
        let greatest = sizes.fold(0.0, f64::max);
        if !greatest.is_finite() {
            return None;
        }
        if greatest < 1e-11 {
            return Some(Through { card, fit });
        }
        card = stepped(&card, values, &fit.coefficients, (MOST / greatest).min(1.0), |next| {
            pairs(next, tests, law).is_some()
        })?;
        // The last digits of the differences do not settle further.
        if greatest < 1e-9 {
            return Some(Through { card, fit });
        }
    }
    None
}

fn pairs(card: &Card, tests: &[CouponTest], law: Law) -> Option<Vec<(f64, f64)>> {
    tests.iter().map(|test| law(card, test)).collect()
}

/// Change of each test's logarithm with each value.
fn slopes(card: &Card, values: &[Parameter], tests: &[CouponTest], law: Law) -> Option<Vec<Vec<f64>>> {
    let mut rows = vec![vec![0.0; values.len()]; tests.len()];
    for (column, value) in values.iter().enumerate() {
        let step = STEP * value.unit(card);
        let moved = |by: f64| {
            let mut other = card.clone();
            value.moved(&mut other, by);
            pairs(&other, tests, law)
        };
        let (up, down) = (moved(step)?, moved(-step)?);
        for (row, (above, below)) in rows.iter_mut().zip(up.into_iter().zip(down)) {
            row[column] = (above.1 - below.1) / (2.0 * step);
        }
    }
    Some(rows)
}

/// The card a step on; a shorter one where the law has no answer there.
fn stepped(
    card: &Card,
    values: &[Parameter],
    moves: &[f64],
    mut share: f64,
    holds: impl Fn(&Card) -> bool,
) -> Option<Card> {
    for _ in 0..30 {
        let mut next = card.clone();
        for (value, by) in values.iter().zip(moves) {
            value.moved(&mut next, by * share);
        }
        if holds(&next) {
            return Some(next);
        }
        share *= 0.5;
    }
    None
}
