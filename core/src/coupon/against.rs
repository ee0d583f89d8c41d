//! A fitted card held against the tests it came from, by the functions that a check asks.

use libm::{exp, log};

use super::predicted;
use super::student::student_quantile;
use super::test::{CouponTest, Measured, TestDirection};
use crate::material::Card;
use crate::units::ZERO_C;
use crate::verdict::rupture_exponents;

/// How sure it has to be that tests and card differ before it is said: among the dozen kinds of test of a table one in ten
/// tables without a fault then has a note.
const SURE: f64 = 0.99;

/// What a law tells of, and how it is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum TestedLaw {
    Strength(&'static str),
    Stiffness,
    Fatigue,
    Rupture,
    Creep,
}

impl TestedLaw {
    /// Differences smaller than this factor change no decision: lives scatter more from print to print, and strengths,
    /// stiffnesses and strains are not measured closer (memory).
    fn matters(self) -> f64 {
        match self {
            Self::Strength(_) | Self::Stiffness => 1.1,
            Self::Creep => 1.25,
            Self::Fatigue | Self::Rupture => 2.0,
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::Strength(name) => name,
            Self::Stiffness => "stiffness",
            Self::Fatigue => "fatigue",
            Self::Rupture => "creep rupture",
            Self::Creep => "creep strain",
        }
    }
}

/// Tests of one kind: the same law, direction, temperature and stress.
struct TestCell {
    law: TestedLaw,
    direction: TestDirection,
    celsius: f64,
    /// Stress, MPa, of what was held or swung; none of short tests.
    stress_mpa: Option<f64>,
    /// What the tests gave and what a check takes from the card, in one unit.
    pairs: Vec<(f64, f64)>,
}

impl TestCell {
    fn ratios(&self) -> impl Iterator<Item = f64> {
        self.pairs.iter().map(|(test, card)| log(card / test))
    }

    /// Logarithm of what the card gives over what the tests gave, their mean.
    fn mean(&self) -> f64 {
        self.ratios().sum::<f64>() / self.pairs.len() as f64
    }

    fn squares(&self) -> f64 {
        let mean = self.mean();
        self.ratios().map(|ratio| (ratio - mean) * (ratio - mean)).sum()
    }

    fn alike(&self, other: &Self) -> bool {
        let near = |a: f64, b: f64| (a - b).abs() < 0.05;
        let stress = match (self.stress_mpa, other.stress_mpa) {
            (Some(a), Some(b)) => (a / b - 1.0).abs() < 1e-3,
            (None, None) => true,
            _ => false,
        };
        self.law == other.law && self.direction == other.direction && near(self.celsius, other.celsius) && stress
    }

    /// The two numbers in a sentence.
    fn told(&self) -> String {
        let count = self.pairs.len() as f64;
        let test = exp(self.pairs.iter().map(|(test, _)| log(*test)).sum::<f64>() / count);
        let by_card = test * exp(self.mean());
        let expected = if by_card.is_finite() { short(by_card) } else { "no usable number of".into() };
        let (unit, gave, expects) = match self.law {
            TestedLaw::Strength(_) | TestedLaw::Stiffness => ("MPa", "the tests gave", "a check takes"),
            TestedLaw::Creep => ("", "the tests gave", "a check takes"),
            TestedLaw::Fatigue => ("cycles", "the tests broke after", "a check expects"),
            TestedLaw::Rupture => ("s", "the tests broke after", "a check expects"),
        };
        let stress = self.stress_mpa.map_or_else(String::new, |mpa| format!("{} MPa and ", short(mpa)));
        format!(
            "{} {} at {stress}{:.0} °C: {gave} {} {unit} (geometric mean of {}), {expects} {} {unit}",
            self.law.words(),
            self.direction.words(),
            self.celsius,
            short(test),
            self.pairs.len(),
            expected
        )
        .replace("  ", " ")
    }
}

fn short(value: f64) -> String {
    crate::report::words::numbers::significant(value)
}

/// Where a check by this card would not find again what the tests gave, by more than they scatter; one sentence a law.
pub(super) fn contradictions(card: &Card, tests: &[CouponTest]) -> Vec<String> {
    let mut cells: Vec<TestCell> = Vec::new();
    for cell in tests.iter().filter(|test| !test.run_out).flat_map(|test| of_test(card, test)) {
        match cells.iter_mut().find(|known| known.alike(&cell)) {
            Some(known) => known.pairs.extend(cell.pairs),
            None => cells.push(cell),
        }
    }
    let mut laws: Vec<TestedLaw> = cells.iter().map(|cell| cell.law).collect();
    laws.sort_unstable();
    laws.dedup();
    let said = laws.into_iter().filter_map(|law| {
        let of_law: Vec<&TestCell> = cells.iter().filter(|cell| cell.law == law).collect();
        let off: Vec<&TestCell> = of_law.iter().copied().filter(|cell| contradicts(card, law, &of_law, cell)).collect();
        let worst = off.iter().copied().max_by(|a, b| a.mean().abs().total_cmp(&b.mean().abs()))?;
        let more = match off.len() - 1 {
            0 => String::new(),
            1 => "; 1 other group of tests differs too".into(),
            more => format!("; {more} other groups of tests differ too"),
        };
        Some(format!("The card contradicts its own tests: {}{more}. Do not use the card for that.", worst.told()))
    });
    said.collect()
}

/// Whether what the card gives lies beyond the scatter of tests of one kind: Student's t of their mean, with the scatter
/// within the kinds of that law, or the card's own where no kind was tested twice.
fn contradicts(card: &Card, law: TestedLaw, all: &[&TestCell], cell: &TestCell) -> bool {
    let off = cell.mean();
    // A card by which nothing lasts at all, or for ever.
    if !off.is_finite() {
        return true;
    }
    if off.abs() < log(law.matters()) {
        return false;
    }
    let known = all.iter().filter(|cell| cell.mean().is_finite());
    let (freedom, squares) = known.fold((0, 0.0), |(n, sum), cell| (n + cell.pairs.len() - 1, sum + cell.squares()));
    let probability = f64::midpoint(1.0, SURE);
    let (scatter, t) = if freedom > 0 {
        ((squares / freedom as f64).sqrt(), student_quantile(probability, freedom).unwrap_or(f64::INFINITY))
    } else {
        // With so many degrees of freedom Student's t is the normal quantile.
        (usual_scatter(card, law), student_quantile(probability, 1000).unwrap_or(2.6))
    };
    off.abs() > t * scatter / (cell.pairs.len() as f64).sqrt()
}

/// Scatter of the logarithm of one test where the tests themselves do not tell it.
fn usual_scatter(card: &Card, law: TestedLaw) -> f64 {
    let ten = core::f64::consts::LN_10;
    let strength = card.strength.scatter_log10.value * ten;
    match law {
        TestedLaw::Strength(_) | TestedLaw::Stiffness => strength,
        // Strains read from one piece share its stiffness.
        TestedLaw::Creep => strength.max(0.1),
        TestedLaw::Fatigue => {
            libm::hypot(card.fatigue.scatter_log10.value * ten, card.fatigue.exponent.value * strength)
        }
        // A stress off by the scatter of strength moves the time by the law's growth with stress.
        TestedLaw::Rupture => rupture_exponents(card, crate::material::REFERENCE_TEMPERATURE).1 * strength,
    }
}

fn of_test(card: &Card, test: &CouponTest) -> Vec<TestCell> {
    let cell = |law, stress_pa: Option<f64>, measured: f64, by_card: Option<f64>| TestCell {
        law,
        direction: test.direction,
        celsius: test.temperature - ZERO_C,
        stress_mpa: stress_pa.map(|pa| pa * 1e-6),
        pairs: vec![(measured, by_card.unwrap_or(f64::NAN))],
    };
    let strength = |name, measured: f64| {
        cell(TestedLaw::Strength(name), None, measured * 1e-6, predicted::strength(card, test).map(|pa| pa * 1e-6))
    };
    match test.measured {
        Measured::Tensile(measured, modulus) => {
            let stiff = |pa: f64| {
                cell(TestedLaw::Stiffness, None, pa * 1e-6, predicted::stiffness(card, test).map(|pa| pa * 1e-6))
            };
            [strength("strength", measured)].into_iter().chain(modulus.map(stiff)).collect()
        }
        Measured::Bending(..) => Vec::new(),
        Measured::Compression(measured) => vec![strength("compression strength", measured)],
        Measured::Shear(measured) => vec![strength("shear strength", measured)],
        Measured::Fatigue(highest, _, cycles) => {
            vec![cell(TestedLaw::Fatigue, Some(highest), cycles, predicted::life(card, test))]
        }
        Measured::Rupture(stress, seconds) => {
            vec![cell(TestedLaw::Rupture, Some(stress), seconds, predicted::life(card, test))]
        }
        // Strains at several times are one group, each beside the law at its own time.
        Measured::Creep(stress, _, strain) => {
            vec![cell(TestedLaw::Creep, Some(stress), strain, predicted::strain(card, test))]
        }
    }
}
