use libm::log;

use super::through::{Law, Parameter, through};
use super::{LawFit, LawFound, ROOM};
use crate::coupon::predicted;
use crate::coupon::test::{CouponTest, Measured};
use crate::material::{Card, REFERENCE_TEMPERATURE, Source, Value};

/// Logarithms of a strength and of what a check takes.
const STRENGTH: Law = |card, test| {
    let (Measured::Tensile(found, _) | Measured::Compression(found) | Measured::Shear(found)) = test.measured else {
        return None;
    };
    Some((log(found), log(predicted::strength(card, test)?)))
};

/// The same of a modulus.
const STIFFNESS: Law = |card, test| {
    let Measured::Tensile(_, Some(found)) = test.measured else { return None };
    Some((log(found), log(predicted::stiffness(card, test)?)))
};

/// Power of the curve of strength over temperature.
pub(super) fn strength_power(card: &mut Card) -> &mut Value {
    card.temperature.retention.strength_power.get_or_insert_with(unchanged)
}

fn stiffness_power(card: &mut Card) -> &mut Value {
    card.temperature.retention.stiffness_power.get_or_insert_with(unchanged)
}

/// A power that leaves a curve as it is.
fn unchanged() -> Value {
    Value { value: 1.0, source: Source::Memory, reference: None, spread: None, memory: None, behind: None, note: None }
}

impl LawFit<'_> {
    /// How much strength and stiffness are kept away from room temperature: powers of the card's curves.
    pub(super) fn warm(&mut self) {
        type Of = fn(&mut Card) -> &mut Value;
        let strength: (&str, Of, Parameter, Law) =
            ("strength", strength_power, Parameter::log(|card| &mut strength_power(card).value), STRENGTH);
        let stiffness: (&str, Of, Parameter, Law) =
            ("stiffness", stiffness_power, Parameter::log(|card| &mut stiffness_power(card).value), STIFFNESS);
        for (word, of, value, law) in [strength, stiffness] {
            let tells = |test: &CouponTest| is_warm(test) && !test.run_out && law(&self.card, test).is_some();
            let tests: Vec<CouponTest> = self.tests.iter().filter(|test| tells(test)).copied().collect();
            if tests.is_empty() {
                continue;
            }
            let used: Vec<bool> = self.tests.iter().map(tells).collect();
            let Some(found) = through(&self.card, &[value], &tests, law) else {
                self.findings.push(format!(
                    "Tests of {word} away from 23 °C are too few, or do not follow the card's curve: it stays as it was."
                ));
                continue;
            };
            for (one, used) in self.used.iter_mut().zip(used) {
                *one |= used;
            }
            let power = of(&mut found.card.clone()).value;
            let how = format!("power of the curve of {word} over temperature, least squares of logarithms");
            let found = LawFound::by_log(&found.fit, 0, power, tests.len(), &how);
            self.put(&format!("power of {word} kept warm"), "1", of, &found);
        }
    }

    /// Whether short tests told how much strength is kept.
    pub(super) fn warm_strength_known(&self) -> bool {
        self.card.temperature.retention.strength_power.as_ref().is_some_and(|power| power.source == Source::Coupon)
    }
}

/// Whether a test was made away from room temperature.
pub(super) fn is_warm(test: &CouponTest) -> bool {
    (test.temperature - REFERENCE_TEMPERATURE).abs() > ROOM
}
