//! Learning from runs whose failure mode is known, against closed forms.

use layload_core::Mode;
use layload_core::bench::{ByQuantity, ModeLife, ModeRun, Outcome, Quantity, by_mode};

fn bond(ln_middle: f64) -> ModeLife {
    ModeLife { mode: Mode::FatigueAcrossLayers, ln_middle, power: Some(10.0), scatter: 1.2 }
}

fn beads(ln_middle: f64) -> ModeLife {
    ModeLife { mode: Mode::FatigueInLayerPlane, ln_middle, power: Some(12.0), scatter: 1.0 }
}

const OPEN: [f64; 4] = [0.2, 0.3, 0.25, 0.8];

/// One mode alone and exact times: the normal prior with straight-line observations, worked out with the inverse of one sum.
#[test]
fn exact_failures_of_one_mode_are_the_closed_form() {
    let prior = ByQuantity::open(OPEN);
    let times = [300.0f64, 700.0, 1500.0];
    let runs: Vec<ModeRun> = times
        .iter()
        .map(|seconds| ModeRun {
            modes: vec![bond(8.0)],
            outcome: Outcome::FailedAt(*seconds),
            mode: Some(Mode::FatigueAcrossLayers),
        })
        .collect();
    let found = by_mode(&prior, &runs);
    // ln t = 8 + 10 bond + life + error: both share what was seen by their variances.
    let (of_bond, of_life) = (OPEN[1] * OPEN[1], OPEN[3] * OPEN[3]);
    let wide = 100.0 * of_bond + of_life + 1.2 * 1.2 / 3.0;
    let off = times.iter().map(|seconds| libm::log(*seconds) - 8.0).sum::<f64>() / 3.0;
    let (bond, life) = (10.0 * of_bond * off / wide, of_life * off / wide);
    assert!((found.mean[Quantity::Bond as usize] - bond).abs() < 1e-9, "{found:?} {bond}");
    assert!((found.mean[Quantity::Life as usize] - life).abs() < 1e-9, "{found:?} {life}");
    let left = of_bond - 100.0 * of_bond * of_bond / wide;
    assert!((found.deviation(Quantity::Bond) - left.sqrt()).abs() < 1e-9);
    // Nothing was said of the others.
    assert_eq!((found.mean[0], found.deviation(Quantity::Beads)), (0.0, OPEN[0]));
    assert!((found.deviation(Quantity::Pressed) - OPEN[2]).abs() < 1e-12);
}

/// Two modes: the one that failed moves its own strength, the other was survived, which never speaks against its strength.
#[test]
fn the_mode_that_failed_moves_its_own_strength() {
    let prior = ByQuantity::open(OPEN);
    let run = |mode| ModeRun { modes: vec![bond(9.0), beads(9.0)], outcome: Outcome::FailedAt(60.0), mode: Some(mode) };
    for (mode, own, other) in [
        (Mode::FatigueAcrossLayers, Quantity::Bond, Quantity::Beads),
        (Mode::FatigueInLayerPlane, Quantity::Beads, Quantity::Bond),
    ] {
        let found = by_mode(&prior, &[run(mode), run(mode)]);
        assert!(found.factor(own) < 0.9, "{own:?} {}", found.factor(own));
        assert!(found.factor(other) >= 0.99, "{other:?} {}", found.factor(other));
        assert!(found.deviation(own) < prior.deviation(own));
    }
}

/// Survivors raise, early failures lower, and runs without end or beyond all belief stay numbers.
#[test]
fn censored_and_extreme_runs_stay_finite() {
    let prior = ByQuantity::open(OPEN);
    let crushed = ModeLife { mode: Mode::Crushing, ln_middle: 0.5, power: None, scatter: 0.1 };
    let told =
        |outcome, mode| by_mode(&prior, &[ModeRun { modes: vec![bond(8.0), beads(9.0), crushed], outcome, mode }]);
    let long = told(Outcome::Survived(1e6), None);
    assert!(long.factor(Quantity::Bond) > 1.0 && long.factor(Quantity::Beads) > 1.0);
    let early = told(Outcome::FailedBetween(0.0, 10.0), Some(Mode::FatigueAcrossLayers));
    assert!(early.factor(Quantity::Bond) < 1.0);
    let pressed = told(Outcome::FailedAt(10.0), Some(Mode::Crushing));
    assert!(pressed.factor(Quantity::Pressed) < 0.9, "{}", pressed.factor(Quantity::Pressed));
    for outcome in [Outcome::Survived(1e15), Outcome::FailedAt(1e-6), Outcome::FailedBetween(1.0, 1e12)] {
        for mode in [None, Some(Mode::FatigueAcrossLayers), Some(Mode::Crushing), Some(Mode::Softening)] {
            let found = told(outcome, mode);
            assert!(
                found.mean.iter().chain(found.covariance.iter()).all(|value| value.is_finite()),
                "{outcome:?} {mode:?}"
            );
            for quantity in Quantity::ALL {
                assert!(found.deviation(quantity) <= prior.deviation(quantity) + 1e-9);
            }
        }
    }
}

/// The peak and its curvature against a sum over a grid, where one mode is censored and the other failed.
#[test]
fn a_mixed_log_agrees_with_a_sum_over_a_grid() {
    let prior = ByQuantity::open([1e-6, 0.3, 1e-6, 1e-6]);
    let runs = [
        ModeRun { modes: vec![bond(8.0)], outcome: Outcome::FailedAt(900.0), mode: Some(Mode::FatigueAcrossLayers) },
        ModeRun { modes: vec![bond(8.0)], outcome: Outcome::Survived(4000.0), mode: None },
        ModeRun { modes: vec![bond(8.0)], outcome: Outcome::FailedBetween(0.0, 2000.0), mode: None },
    ];
    let found = by_mode(&prior, &runs);
    let normal = layload_core::life::normal_probability;
    let (mut sum, mut first, mut second) = (0.0, 0.0, 0.0);
    for k in -4000..=4000 {
        let at = f64::from(k) * 5e-4;
        let score = |seconds: f64| (8.0 + 10.0 * at - libm::log(seconds)) / 1.2;
        let weight = libm::exp(-0.5 * (at / 0.3) * (at / 0.3) - 0.5 * score(900.0) * score(900.0))
            * normal(score(4000.0))
            * normal(-score(2000.0));
        sum += weight;
        first += weight * at;
        second += weight * at * at;
    }
    let mean = first / sum;
    let deviation = (second / sum - mean * mean).sqrt();
    // Laplace's peak is not quite the mean of a skewed sum: by less than a tenth of the deviation.
    assert!((found.mean[1] - mean).abs() < 0.1 * deviation, "{} {mean}", found.mean[1]);
    assert!(
        (found.deviation(Quantity::Bond) / deviation - 1.0).abs() < 0.05,
        "{} {deviation}",
        found.deviation(Quantity::Bond)
    );
}
