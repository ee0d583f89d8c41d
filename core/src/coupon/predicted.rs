//! What a check takes from a card for a test: the one place that fits and their judgement ask.

use libm::exp;

use super::test::{CouponTest, Measured, TestDirection};
use crate::life::{Cycle, Findley, Lasting, MeanStress, StressLife, TensionLevels, WalkerExponent};
use crate::material::{Card, MaterialState, MoistureState};
use crate::verdict::{cycle_damage, fatigue_line, rupture_exponents};

/// The card at the temperature of a test.
fn material(card: &Card, test: &CouponTest) -> MaterialState {
    card.at(test.temperature, MoistureState::Dry)
}

fn usable(value: f64) -> Option<f64> {
    (value.is_finite() && value > 0.0).then_some(value)
}

/// Short-term strength, Pa; none for tests that tell of no strength of the card.
pub(super) fn strength(card: &Card, test: &CouponTest) -> Option<f64> {
    let material = material(card, test);
    match test.measured {
        Measured::Tensile(..) => usable(strength_along(&material, test.direction)),
        Measured::Compression(_) => usable(material.compression_strength),
        Measured::Shear(_) => usable(material.layer_shear_strength),
        // The strength of the outer fibre of a bent bar is another one, and the card has none of it.
        _ => None,
    }
}

/// Young's modulus, Pa, of a pulled bar.
pub(super) fn stiffness(card: &Card, test: &CouponTest) -> Option<f64> {
    usable(modulus_along(&material(card, test), test.direction))
}

/// Cycles or seconds that a bar lasts.
pub(super) fn life(card: &Card, test: &CouponTest) -> Option<f64> {
    match test.measured {
        Measured::Fatigue(highest, ratio, _) => cycles(&material(card, test), test.direction, highest, ratio),
        Measured::Rupture(stress, _) => seconds(card, &material(card, test), test, stress),
        _ => None,
    }
}

/// Creep strain of a bar.
pub(super) fn strain(card: &Card, test: &CouponTest) -> Option<f64> {
    let Measured::Creep(stress, seconds, _) = test.measured else { return None };
    let material = material(card, test);
    let softness = material.bead_modulus / modulus_along(&material, test.direction);
    let law = Findley::of_material(&card.creep.in_si(), softness).ok()?;
    usable(law.strain(stress, seconds, test.temperature).ok()?)
}

/// Stress of a bar over its strength at the temperature of the test, the amplitude at zero mean where it is swung.
pub(super) fn over_strength(card: &Card, test: &CouponTest) -> Option<f64> {
    let strength = strength_along(&material(card, test), test.direction);
    match test.measured {
        Measured::Fatigue(highest, ratio, _) => {
            usable(highest / strength * libm::pow(0.5 * (1.0 - ratio), card.fatigue.walker_exponent.value))
        }
        Measured::Rupture(stress, _) => usable(stress / strength),
        _ => None,
    }
}

fn strength_along(material: &MaterialState, direction: TestDirection) -> f64 {
    match direction {
        TestDirection::Bead => material.bead_strength,
        TestDirection::Across => material.across_strength,
        TestDirection::Layer => material.layer_strength,
    }
}

fn modulus_along(material: &MaterialState, direction: TestDirection) -> f64 {
    match direction {
        TestDirection::Bead => material.bead_modulus,
        TestDirection::Across => material.across_modulus,
        TestDirection::Layer => material.layer_modulus,
    }
}

/// Cycles that a check counts for a bar under a highest stress and a ratio of least to highest stress.
fn cycles(material: &MaterialState, direction: TestDirection, highest: f64, ratio: f64) -> Option<f64> {
    let strength = strength_along(material, direction);
    let (of_strength, exponent) = fatigue_line(material, f64::from(u8::from(direction == TestDirection::Layer)));
    let rule = MeanStress::Walker { exponent: WalkerExponent::new(material.walker_exponent).ok()? };
    let cycle = Cycle { range: highest * (1.0 - ratio), mean: 0.5 * highest * (1.0 + ratio), count: 1.0 };
    let life = StressLife::new(of_strength * strength, exponent).ok()?;
    usable(1.0 / cycle_damage(rule, &life, strength, &cycle, 1.0))
}

/// Time that a check gives a bar under a steady pull.
fn seconds(card: &Card, material: &MaterialState, test: &CouponTest, stress: f64) -> Option<f64> {
    let strength = strength_along(material, test.direction);
    let steady = TensionLevels::of(&[stress]);
    let (ln_rate, _) = Lasting::new(rupture_exponents(card, test.temperature), &steady, 1.0 / strength).ln_rate(1.0);
    usable(exp(-ln_rate))
}
