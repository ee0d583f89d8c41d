use layload_core::bench::Belief;
use layload_core::job::Job;
use layload_core::ladder::{Believed, Taken};
use layload_core::{Error, Question, load, plan};
use nalgebra::{Matrix2, Vector2};

use super::Bench;
use crate::mesh::files;

/// The grid has the mean and the covariance of the belief that it is of.
#[test]
fn a_grid_has_the_moments_of_its_belief() {
    let belief = Belief { mean: Vector2::new(0.1, -0.4), covariance: Matrix2::new(0.04, 0.05, 0.05, 0.49) };
    let believed = Believed::of(&belief);
    let mean = |of: &dyn Fn((f64, f64)) -> f64| believed.mean(|index| of(believed.pair(index)));
    let (strength, life) = (mean(&|pair| pair.0), mean(&|pair| pair.1));
    assert!((strength - 0.1).abs() < 1e-9 && (life + 0.4).abs() < 1e-9);
    let of = [
        (mean(&|pair| (pair.0 - 0.1) * (pair.0 - 0.1)), 0.04),
        (mean(&|pair| (pair.0 - 0.1) * (pair.1 + 0.4)), 0.05),
        (mean(&|pair| (pair.1 + 0.4) * (pair.1 + 0.4)), 0.49),
    ];
    // Beyond 3.6 deviations lies 0.3 per mille of a normal distribution, and 0.5 % of its variance.
    for (found, wanted) in of {
        assert!((found / wanted - 1.0).abs() < 0.01, "{found} {wanted}");
    }
    // The band of the margin is that of the normal logarithm.
    let band = believed.margin(2.0, 10.0);
    let deviation = (0.04 + 2.0 * 0.05 / 10.0 + 0.49 / 100.0f64).sqrt();
    let wanted = 2.0 * 1.644_85 * deviation;
    assert!((band.width() / wanted - 1.0).abs() < 0.03, "{} {wanted}", band.width());
    assert!((libm::log(band.middle / 2.0) - (0.1 - 0.04)).abs() < 0.02, "{band:?}");
}

/// Survival of one run at one level is what the weakest link has for it.
#[test]
fn one_run_is_survived_as_the_weakest_link_has_it() {
    let bench = Bench::new(1.1);
    let (believed, wear) = (bench.believed(), bench.wear());
    for level in [6, 8, 10] {
        for seconds in [60.0, 600.0, 7200.0] {
            let left = wear.survive(&[Taken { level, seconds }], &believed);
            for index in (0..believed.len()).step_by(13) {
                let (strength, life) = believed.pair(index);
                let failed = bench.levels[level].link.failed_by(seconds * libm::exp(-life), libm::exp(-strength));
                // Prints on a grid of some thirds of a deviation.
                assert!(
                    (left[index] - (1.0 - failed)).abs() < 0.01,
                    "{level} {seconds} {index}: {} {failed}",
                    left[index]
                );
            }
        }
    }
}

/// Steps at one level are one long step, and more running never helps.
#[test]
fn wear_adds_up() {
    let bench = Bench::new(1.0);
    let (believed, wear) = (bench.believed(), bench.wear());
    let taken = |level, seconds| Taken { level, seconds };
    let (apart, whole) =
        (wear.survive(&[taken(9, 200.0), taken(9, 400.0)], &believed), wear.survive(&[taken(9, 600.0)], &believed));
    let more = wear.survive(&[taken(9, 600.0), taken(10, 60.0)], &believed);
    for ((apart, whole), more) in apart.iter().zip(&whole).zip(&more) {
        assert!((apart - whole).abs() < 1e-12);
        assert!(*more <= whole + 1e-15);
    }
}

#[test]
fn a_ladder_starts_low_rises_and_ends_at_the_wanted_life() {
    for margin in [0.6, 1.0, 2.0] {
        let bench = Bench::new(margin);
        let climb = bench.climb();
        let first = &climb.steps[0];
        assert!(first.breaks <= 1e-3, "{margin}: {}", first.breaks);
        // One level more would break more than one in a thousand, or would be above the duty.
        let believed = bench.believed();
        let next = bench.wear().survive(&[Taken { level: first.taken.level + 1, seconds: 600.0 }], &believed);
        assert!(1.0 - believed.mean(|index| next[index]) > 1e-3 || first.taken.level == 10, "{margin}");
        assert!(climb.steps.windows(2).all(|pair| pair[0].taken.level <= pair[1].taken.level));
        assert!(climb.steps.windows(2).all(|pair| pair[0].reached >= pair[1].reached));
        assert!(climb.reaches, "{margin}: {:?}", climb.steps.len());
        let at_duty: f64 =
            climb.steps.iter().filter(|step| step.taken.level == 10).map(|step| step.taken.seconds).sum();
        assert!((at_duty - 7200.0).abs() < 1e-6, "{at_duty}");
        // To live through it raises what is believed, to break lowers it.
        for step in &climb.steps {
            assert!(step.broken.middle < step.survived.middle && step.bits >= 0.0);
        }
    }
}

/// Where nothing is known, no level is low enough, and the ladder says so and starts at the lowest.
#[test]
fn a_ladder_that_cannot_start_low_says_so() {
    let mut bench = Bench::new(0.5);
    bench.prior = Belief::open(1.0, 2.0);
    let climb = bench.climb();
    assert!(!climb.starts_low_enough() && climb.steps[0].taken.level == 0, "{:?}", climb.steps[0]);
    assert!(Bench::new(1.0).climb().starts_low_enough());
}

#[test]
fn numbers_of_parts_beyond_reason_are_refused() {
    let job = Job::from_toml(&String::from_utf8(files::bytes("samples/bench_single.toml").unwrap()).unwrap()).unwrap();
    let part = load(&files::bytes("samples/plain_rod.stl").unwrap(), &job, &mut ()).unwrap();
    let question = Question { job: &job, card_text: None, pressure_text: None };
    for parts in [0, 13, usize::MAX] {
        assert!(matches!(plan(&part, &question, parts, None, &mut ()), Err(Error::PartCount { .. })));
    }
}
