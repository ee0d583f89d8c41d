//! Counting of a history that repeats for ever.

use approx::assert_relative_eq;
use layload_core::life::{Cycle, LifeError, MeanStress, StressLife, damage_of_cycles};
use proptest::prelude::*;

use super::{Tested, counted, counted_repeating};

#[test]
fn standards_history_repeated() -> Tested {
    // ASTM E1049-85, 5.4.5, the history of 5.4.4 repeated from its highest peak: one cycle each of 3, 4, 7 and 9.
    // By hand: 5 -1 3 -4 4 -3 5 after the ends -2, -2 and the small swing -2 1 -3 are put in their place.
    let mut cycles = counted_repeating(&[-2.0, 1.0, -3.0, 5.0, -1.0, 3.0, -4.0, 4.0, -2.0])?;
    cycles.sort_by(|a, b| a.range.total_cmp(&b.range));
    let expected = [(3.0, -0.5), (4.0, 1.0), (7.0, 0.5), (9.0, 0.5)];
    assert_eq!(cycles, expected.map(|(range, mean)| Cycle { range, mean, count: 1.0 }));
    Ok(())
}

#[test]
fn a_sine_is_one_cycle() -> Tested {
    let period: Vec<f64> = (0..720).map(|i| 3.0 + 5.0 * libm::sin(f64::from(i).to_radians() / 2.0)).collect();
    let cycles = counted_repeating(&period)?;
    assert_eq!(cycles.len(), 1);
    assert_relative_eq!(cycles[0].range, 10.0, max_relative = 1e-12);
    assert_relative_eq!(cycles[0].mean, 3.0, max_relative = 1e-12);
    Ok(())
}

#[test]
fn steady_stress_has_no_cycle() -> Tested {
    assert_eq!(counted_repeating(&[4.0])?, []);
    assert_eq!(counted_repeating(&[4.0, 4.0, 4.0])?, []);
    assert_eq!(counted_repeating(&[]), Err(LifeError::TooShort { count: 0, least: 1 }));
    assert_eq!(counted_repeating(&[0.0, f64::NAN]), Err(LifeError::NotFinite { index: 1 }));
    Ok(())
}

/// Turning points of a closed history.
fn closed_turning_points(period: &[f64]) -> usize {
    let mut distinct = period.to_vec();
    distinct.dedup();
    while distinct.len() > 1 && distinct.first() == distinct.last() {
        distinct.pop();
    }
    let count = distinct.len();
    let at = |i: usize| distinct[i % count];
    (0..count).filter(|&i| count > 1 && (at(i + count) > at(i + count - 1)) != (at(i + 1) > at(i))).count()
}

proptest! {
    #[test]
    fn only_full_cycles_and_all_of_them(period in prop::collection::vec((-6_i32..=6).prop_map(f64::from), 1..80)) {
        let cycles = counted_repeating(&period);
        prop_assert!(cycles.is_ok());
        let cycles = cycles.unwrap_or_default();
        prop_assert!(cycles.iter().all(|cycle| (cycle.count - 1.0).abs() < f64::EPSILON));
        prop_assert_eq!(2 * cycles.len(), closed_turning_points(&period));
    }

    #[test]
    fn where_the_period_starts_makes_no_difference(
        period in prop::collection::vec((-40_i32..=40).prop_map(|n| f64::from(n) * 1e6), 2..80),
        start in 0_usize..80,
    ) {
        let mut turned = period.clone();
        turned.rotate_left(start % period.len());
        let damage = |history: &[f64]| {
            let line = StressLife::new(20e6, 8.0)?;
            Ok::<f64, LifeError>(damage_of_cycles(counted_repeating(history)?, MeanStress::SmithWatsonTopper, &line, 90e6))
        };
        let (a, b) = (damage(&period), damage(&turned));
        // Only the order of the sum may differ.
        prop_assert!(a.as_ref().is_ok_and(|a| b.as_ref().is_ok_and(|b| (a - b).abs() <= 1e-12 * a)), "{a:?} {b:?}");
    }

    #[test]
    fn long_repetition_once_through_tends_to_it(
        period in prop::collection::vec((-6_i32..=6).prop_map(f64::from), 2..20),
    ) {
        // Each further repeat adds the same count to every range: the difference of 6 and 5 repeats is one period.
        let halves = |cycles: &[Cycle], range: f64| {
            cycles.iter().filter(|c| (c.range - range).abs() < 0.5).map(|c| (2.0 * c.count) as u32).sum::<u32>()
        };
        let (five, six) = (counted(&period.repeat(5)).unwrap_or_default(), counted(&period.repeat(6)).unwrap_or_default());
        let closed = counted_repeating(&period).unwrap_or_default();
        for range in (1..=12).map(f64::from) {
            prop_assert_eq!(halves(&six, range), halves(&five, range) + halves(&closed, range));
        }
    }
}
