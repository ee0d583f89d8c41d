//! C11: basic rating life of ISO 281.

use approx::assert_relative_eq;
use layload_core::life::{BearingLoad, LifeError, RollingElement, basic_rating_life, equivalent_load};
use proptest::prelude::*;

use super::Tested;

#[test]
fn changing_load() -> Tested {
    // 1 kN and 2 kN for the same turns: ((1 + 8) / 2)^(1/3) kN. The sign of a load does not matter.
    let loads = [BearingLoad { force_n: 1e3, revolutions: 7.0 }, BearingLoad { force_n: -2e3, revolutions: 7.0 }];
    let expected = 1e3 * libm::cbrt(4.5);
    assert_relative_eq!(equivalent_load(RollingElement::Ball, &loads)?, expected, max_relative = 1e-12);
    let none = [BearingLoad { force_n: 0.0, revolutions: 1.0 }];
    assert_relative_eq!(equivalent_load(RollingElement::Ball, &none)?, 0.0);
    Ok(())
}

#[test]
fn bad_numbers_are_refused() {
    for bad in [-1.0, f64::NAN, f64::INFINITY] {
        assert!(basic_rating_life(RollingElement::Ball, bad, 1e3).is_err());
        assert!(basic_rating_life(RollingElement::Ball, 1e3, bad).is_err());
        let turns = [BearingLoad { force_n: 1.0, revolutions: bad }];
        assert!(equivalent_load(RollingElement::Ball, &turns).is_err());
    }
    assert!(basic_rating_life(RollingElement::Ball, 0.0, 1e3).is_err());
    let force = [BearingLoad { force_n: f64::NAN, revolutions: 1.0 }];
    assert!(equivalent_load(RollingElement::Ball, &force).is_err());
    assert_eq!(equivalent_load(RollingElement::Ball, &[]), Err(LifeError::NoSteps));
    let still = [BearingLoad { force_n: 1.0, revolutions: 0.0 }];
    assert_eq!(equivalent_load(RollingElement::Ball, &still), Err(LifeError::NoSteps));
}

proptest! {
    #[test]
    fn equivalent_load_does_the_same_damage(
        loads in prop::collection::vec((1.0_f64..5e3, 1.0_f64..1e6), 1..10),
        rollers in any::<bool>(),
    ) {
        let element = if rollers { RollingElement::Roller } else { RollingElement::Ball };
        let loads: Vec<_> =
            loads.into_iter().map(|(force_n, revolutions)| BearingLoad { force_n, revolutions }).collect();
        let turns: f64 = loads.iter().map(|load| load.revolutions).sum();
        let used = |force_n, turns: f64| basic_rating_life(element, 8e3, force_n).map_or(f64::NAN, |life| turns / life);
        let one_by_one: f64 = loads.iter().map(|load| used(load.force_n, load.revolutions)).sum();
        let at_once = equivalent_load(element, &loads).map_or(f64::NAN, |force_n| used(force_n, turns));
        prop_assert!((at_once / one_by_one - 1.0).abs() < 1e-12, "{at_once} {one_by_one}");
    }
}
