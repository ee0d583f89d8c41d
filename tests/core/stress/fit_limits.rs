//! Limits of size by ISO 286.

use approx::assert_relative_eq;
use layload_core::stress::{StressError, ToleranceClass, interference};

type Tested = Result<(), Box<dyn std::error::Error>>;

#[test]
fn worked_examples() -> Tested {
    use ToleranceClass::{H7, N6, P6, R6, S6};
    // Textbook press fit 50 H7/s6: hole 0 to +25 µm, shaft +43 to +59 µm; 20 H7/s6: 0 to +21, +35 to +48 µm (worked
    // examples of a machine-design course in the open, Scilab text-book companions). 50 H7/p6: interference 1 to 42 µm
    // (published guide to fits). Others from the table reprinted of JIS B 0401:1999, which takes over ISO 286-2.
    for (class, diameter_mm, lower, upper) in [
        (H7, 50.0, 0.0, 25.0),
        (S6, 50.0, 43.0, 59.0),
        (H7, 20.0, 0.0, 21.0),
        (S6, 20.0, 35.0, 48.0),
        (P6, 50.0, 26.0, 42.0),
        (N6, 5.0, 8.0, 16.0),
        (P6, 10.0, 15.0, 24.0),
        (R6, 12.0, 23.0, 34.0),
        (N6, 25.0, 15.0, 28.0),
        (R6, 60.0, 41.0, 60.0),
        (R6, 72.0, 43.0, 62.0),
        (S6, 60.0, 53.0, 72.0),
        (S6, 72.0, 59.0, 78.0),
        (H7, 80.0, 0.0, 30.0),
        (H7, 10.001, 0.0, 18.0),
    ] {
        let limits = class.limits(diameter_mm * 1e-3)?;
        assert_relative_eq!(limits.lower * 1e6, lower, epsilon = 1e-9);
        assert_relative_eq!(limits.upper * 1e6, upper, epsilon = 1e-9);
    }
    let (least, most) = interference(H7.limits(0.05)?, P6.limits(0.05)?);
    assert_relative_eq!(least, 1e-6, max_relative = 1e-9);
    assert_relative_eq!(most, 42e-6, max_relative = 1e-9);
    Ok(())
}

#[test]
fn outside_the_table() {
    for diameter in [0.0, 0.003, 0.0801, -0.01, f64::NAN, f64::INFINITY] {
        let got = ToleranceClass::H7.limits(diameter);
        assert!(matches!(got, Err(StressError::NoLimits { .. })), "{diameter}: {got:?}");
    }
}
