use layload_core::bench::{Belief, Evidence, Outcome, conjugate, on_grid};

const LIVES: [f64; 5] = [900.0, 4000.0, 2500.0, 7000.0, 1500.0];

fn runs(lives: &[f64]) -> Vec<(Evidence<'static>, Outcome)> {
    let ln_median = libm::log(3600.0);
    lives
        .iter()
        .map(|&life| (Evidence::LogNormal { ln_median, exponent: 10.0, scatter: 0.9 }, Outcome::FailedAt(life)))
        .collect()
}

/// The grid gives what the closed form gives. A sum over an even grid of a smooth function that dies away at both ends is
/// exact to the digits of what is cut off beyond 5.5 standard deviations, 4e-8 of the weight.
#[test]
fn the_grid_is_the_closed_form() {
    for prior in [Belief::open(0.2, 0.8), Belief::open(0.05, 2.0), Belief::open(1.0, 0.3)] {
        for count in 0..=LIVES.len() {
            let runs = runs(&LIVES[..count]);
            let (exact, grid) = (conjugate(&prior, &runs).unwrap(), on_grid(&prior, &runs));
            let size = exact.deviations();
            for (k, size) in size.into_iter().enumerate() {
                assert!((exact.mean[k] - grid.mean[k]).abs() < 1e-5 * size, "{count} {exact:?} {grid:?}");
                assert!((exact.deviations()[k] / grid.deviations()[k] - 1.0).abs() < 1e-5, "{exact:?} {grid:?}");
            }
            let scale = size[0] * size[1];
            assert!((exact.covariance[(0, 1)] - grid.covariance[(0, 1)]).abs() < 1e-5 * scale, "{exact:?} {grid:?}");
        }
    }
}

/// One unknown: the textbook precision-weighted mean (Gelman et al., Bayesian Data Analysis, 2.5).
#[test]
fn one_unknown_is_the_precision_weighted_mean() {
    let belief = conjugate(&Belief::open(1e-9, 0.8), &runs(&LIVES)).unwrap();
    let (prior, scatter, count) = (0.8_f64, 0.9_f64, LIVES.len() as f64);
    let mean = LIVES.iter().map(|life| libm::log(life / 3600.0)).sum::<f64>() / count;
    let precision = 1.0 / (prior * prior) + count / (scatter * scatter);
    assert!((belief.mean[1] - count * mean / (scatter * scatter) / precision).abs() < 1e-9);
    assert!((belief.deviations()[1] - 1.0 / precision.sqrt()).abs() < 1e-9);
}

#[test]
fn a_survivor_is_no_failure_and_lifts_what_is_believed() {
    let prior = Belief::open(0.2, 0.8);
    let (_, wide) = prior.of_life(10.0);
    let median = 3600.0_f64;
    let evidence = || Evidence::LogNormal { ln_median: libm::log(median), exponent: 10.0, scatter: 0.9 };
    let after = |outcome| on_grid(&prior, &[(evidence(), outcome)]).of_life(10.0);
    let (survived, narrow) = after(Outcome::Survived(median));
    let (failed, _) = after(Outcome::FailedAt(median));
    let (between, _) = after(Outcome::FailedBetween(0.9 * median, 1.1 * median));
    assert!(survived > 0.3 && failed.abs() < 1e-6 && between.abs() < 0.05, "{survived} {failed} {between}");
    assert!(narrow < wide);
    // A short run that was survived says next to nothing.
    assert!(after(Outcome::Survived(0.001)).0.abs() < 1e-3);
}

#[test]
fn censored_runs_have_no_closed_form() {
    let mut runs = runs(&LIVES);
    runs[0].1 = Outcome::Survived(10.0);
    assert!(conjugate(&Belief::open(0.2, 0.8), &runs).is_none());
}
