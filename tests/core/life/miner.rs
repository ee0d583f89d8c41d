//! Adding up damage.

use approx::assert_relative_eq;
use layload_core::life::{Cycle, DamageStep, LifeError, MeanStress, StressLife, damage_of_cycles, duty_life};
use proptest::prelude::*;

use super::Tested;

fn cycle(range: f64, mean: f64, count: f64) -> Cycle {
    Cycle { range, mean, count }
}

#[test]
fn sum_of_shares() -> Tested {
    let line = StressLife::new(20e6, 8.0)?;
    // Amplitudes 20 and 40 MPa at zero mean: 0.5/1e6 + 2 x 256/1e6.
    let cycles = [cycle(40e6, 0.0, 0.5), cycle(80e6, 0.0, 1.0), cycle(80e6, 0.0, 1.0)];
    let damage = damage_of_cycles(cycles, MeanStress::Goodman, &line, 90e6);
    assert_relative_eq!(damage, 512.5e-6, max_relative = 1e-12);
    assert_relative_eq!(damage_of_cycles([], MeanStress::Goodman, &line, 90e6), 0.0);
    Ok(())
}

#[test]
fn one_cycle_over_the_ultimate_is_the_end() -> Tested {
    let line = StressLife::new(20e6, 8.0)?;
    let cycles = [cycle(1e6, 0.0, 1.0), cycle(20e6, 81e6, 0.5)];
    let damage = damage_of_cycles(cycles, MeanStress::SmithWatsonTopper, &line, 90e6);
    assert!(damage.is_infinite() && damage > 0.0);
    let life = duty_life(&[DamageStep { damage_per_s: damage, seconds: 5.0 }])?;
    assert_relative_eq!(life.seconds, 0.0);
    assert_relative_eq!(life.ordered_seconds, 0.0);
    Ok(())
}

#[test]
fn steps_in_their_order() -> Tested {
    // 10 s at 0.001/s, then 5 s at 0.05/s: 0.26 a repeat, so three repeats are 0.78 and 0.22 is left. The quiet step
    // takes 0.01, the harsh one reaches the rest after 0.21/0.05 = 4.2 s.
    let steps = [DamageStep { damage_per_s: 0.001, seconds: 10.0 }, DamageStep { damage_per_s: 0.05, seconds: 5.0 }];
    let life = duty_life(&steps)?;
    assert_relative_eq!(life.damage_per_repeat, 0.26, max_relative = 1e-12);
    assert_relative_eq!(life.repeats, 1.0 / 0.26, max_relative = 1e-12);
    assert_relative_eq!(life.seconds, 15.0 / 0.26, max_relative = 1e-12);
    assert_relative_eq!(life.ordered_seconds, 45.0 + 10.0 + 4.2, max_relative = 1e-12);
    Ok(())
}

#[test]
fn no_damage_is_no_end() -> Tested {
    let life = duty_life(&[DamageStep { damage_per_s: 0.0, seconds: 10.0 }])?;
    assert!(life.repeats.is_infinite() && life.seconds.is_infinite() && life.ordered_seconds.is_infinite());
    Ok(())
}

#[test]
fn quiet_step_before_the_breaking_one() -> Tested {
    let steps =
        [DamageStep { damage_per_s: 0.0, seconds: 7.0 }, DamageStep { damage_per_s: f64::INFINITY, seconds: 1.0 }];
    assert_relative_eq!(duty_life(&steps)?.ordered_seconds, 7.0);
    Ok(())
}

#[test]
fn bad_steps_are_refused() {
    assert_eq!(duty_life(&[]), Err(LifeError::NoSteps));
    for damage_per_s in [-1.0, f64::NAN] {
        let got = duty_life(&[DamageStep { damage_per_s, seconds: 1.0 }]);
        assert!(matches!(got, Err(LifeError::OutOfRange { quantity: "damage rate", .. })), "{got:?}");
    }
    for seconds in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let got = duty_life(&[DamageStep { damage_per_s: 1.0, seconds }]);
        assert!(matches!(got, Err(LifeError::OutOfRange { quantity: "time of a step", .. })), "{got:?}");
    }
}

proptest! {
    #[test]
    fn order_moves_the_end_by_less_than_a_repeat(
        steps in prop::collection::vec((0.0_f64..0.3, 0.1_f64..10.0), 1..6),
    ) {
        let steps: Vec<_> =
            steps.into_iter().map(|(damage_per_s, seconds)| DamageStep { damage_per_s, seconds }).collect();
        let total_s: f64 = steps.iter().map(|step| step.seconds).sum();
        let life = duty_life(&steps);
        prop_assert!(life.as_ref().is_ok_and(|life| {
            life.seconds.is_infinite() || (life.seconds - life.ordered_seconds).abs() <= total_s * (1.0 + 1e-9)
        }), "{life:?}");
    }
}
