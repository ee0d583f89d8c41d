//! C1: the worked example of ASTM E1049-85, and what holds for every history.

use layload_core::life::{Cycle, LifeError, RainflowScratch, rainflow};
use proptest::prelude::*;

use super::{Tested, counted, turning_points};

#[test]
fn order_and_means_of_the_worked_example() -> Tested {
    let cycles = counted(&super::E1049_HISTORY)?;
    // Counts are in the book of evidence. Order and means follow from the standard's own steps: A-B, B-C, E-F, C-D, then D-G, G-H, H-I.
    let expected = [
        (3.0, -0.5, 0.5),
        (4.0, -1.0, 0.5),
        (4.0, 1.0, 1.0),
        (8.0, 1.0, 0.5),
        (9.0, 0.5, 0.5),
        (8.0, 0.0, 0.5),
        (6.0, 1.0, 0.5),
    ];
    assert_eq!(cycles, expected.map(|(range, mean, count)| Cycle { range, mean, count }));
    Ok(())
}

#[test]
fn small_histories() -> Tested {
    assert_eq!(counted(&[3.0])?, []);
    assert_eq!(counted(&[3.0, 3.0, 3.0])?, []);
    assert_eq!(counted(&[0.0, 1.0, 2.0])?, [Cycle { range: 2.0, mean: 1.0, count: 0.5 }]);
    assert_eq!(counted(&[2.0, 2.0, 0.0, 0.0])?, [Cycle { range: 2.0, mean: 1.0, count: 0.5 }]);
    assert_eq!(counted(&[]), Err(LifeError::TooShort { count: 0, least: 1 }));
    Ok(())
}

#[test]
fn samples_that_are_no_numbers_are_refused() {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert_eq!(counted(&[0.0, 1.0, bad, 2.0]), Err(LifeError::NotFinite { index: 2 }));
    }
}

#[test]
fn scratch_carries_nothing_over() -> Tested {
    let mut scratch = RainflowScratch::default();
    let mut first = Vec::new();
    rainflow(&[9.0, -9.0, 1.0, 0.0], &mut scratch, |_| {})?;
    rainflow(&[0.0, 2.0, 1.0], &mut scratch, |cycle| first.push(cycle))?;
    assert_eq!(first, counted(&[0.0, 2.0, 1.0])?);
    Ok(())
}

proptest! {
    #[test]
    fn every_range_between_turning_points_is_counted_once(
        history in prop::collection::vec((-6_i32..=6).prop_map(f64::from), 1..120),
    ) {
        let cycles = counted(&history);
        prop_assert!(cycles.is_ok());
        let halves: usize = cycles.iter().flatten().map(|cycle| (2.0 * cycle.count) as usize).sum();
        prop_assert_eq!(halves, turning_points(&history).len() - 1);
    }

    #[test]
    fn points_on_the_slopes_change_nothing(history in prop::collection::vec(-1e3_f64..1e3, 2..60)) {
        let mut finer = Vec::new();
        for ends in history.windows(2) {
            finer.extend([ends[0], 0.5 * (ends[0] + ends[1]), ends[1]]);
        }
        prop_assert_eq!(counted(&history), counted(&finer));
    }

    #[test]
    fn the_largest_range_is_found(history in prop::collection::vec(-1e3_f64..1e3, 2..60)) {
        let highest = history.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let lowest = history.iter().copied().fold(f64::INFINITY, f64::min);
        let largest = counted(&history).map(|cycles| cycles.iter().map(|c| c.range).fold(0.0, f64::max));
        prop_assert_eq!(largest, Ok(highest - lowest));
    }
}
