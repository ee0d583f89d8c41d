//! The stress-life line.

use approx::assert_relative_eq;
use layload_core::life::{LifeError, StressLife};
use proptest::prelude::*;

use super::Tested;

#[test]
fn line_through_its_point_with_its_slope() -> Tested {
    let line = StressLife::new(20e6, 8.0)?;
    // Handed on as given: margins are found from them.
    assert_eq!((line.amplitude_1e6_pa(), line.exponent()), (20e6, 8.0));
    assert_relative_eq!(line.cycles_to_failure(20e6), 1e6, max_relative = 1e-12);
    // Twice the stress, 2^8 less life: closed form.
    assert_relative_eq!(line.cycles_to_failure(40e6), 1e6 / 256.0, max_relative = 1e-12);
    assert_relative_eq!(line.damage_per_cycle(40e6), 256e-6, max_relative = 1e-12);
    assert_relative_eq!(line.amplitude_pa(1e6 / 256.0)?, 40e6, max_relative = 1e-12);
    Ok(())
}

#[test]
fn ends_of_the_scale() -> Tested {
    let line = StressLife::new(20e6, 8.0)?;
    assert!(line.cycles_to_failure(0.0).is_infinite());
    assert!(line.cycles_to_failure(-1.0).is_infinite());
    assert_relative_eq!(line.damage_per_cycle(0.0), 0.0);
    assert_relative_eq!(line.cycles_to_failure(f64::INFINITY), 0.0);
    // What is no number must not pass for harmless.
    assert_relative_eq!(line.cycles_to_failure(f64::NAN), 0.0);
    Ok(())
}

#[test]
fn bad_numbers_are_refused() -> Tested {
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(matches!(StressLife::new(bad, 8.0), Err(LifeError::OutOfRange { .. })));
        assert!(matches!(StressLife::new(20e6, bad), Err(LifeError::OutOfRange { .. })));
        assert!(matches!(StressLife::new(20e6, 8.0)?.amplitude_pa(bad), Err(LifeError::OutOfRange { .. })));
    }
    Ok(())
}

proptest! {
    #[test]
    fn there_and_back(reference in 1e5_f64..1e8, exponent in 2.0_f64..25.0, amplitude in 1e5_f64..1e8) {
        let back = StressLife::new(reference, exponent)
            .and_then(|line| line.amplitude_pa(line.cycles_to_failure(amplitude)));
        // The power loses as many digits as its exponent is large: 25 x 1e-16 with room.
        prop_assert!(back.as_ref().is_ok_and(|got| (got / amplitude - 1.0).abs() < 1e-12), "{back:?}");
    }
}
