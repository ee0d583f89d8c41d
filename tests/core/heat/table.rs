//! A property of temperature, tabulated.

use approx::assert_relative_eq;
use layload_core::heat::{HeatError, TemperatureTable};

use super::Tested;

#[test]
fn straight_line_is_exact_and_ends_hold() -> Tested {
    let table = TemperatureTable::new(280.0, 400.0, 7.0, |t| 3.0 * t - 100.0)?;
    for t in [280.0, 281.3, 333.33, 399.999, 400.0] {
        assert_relative_eq!(table.at(t), 3.0 * t - 100.0, max_relative = 1e-12);
    }
    assert_relative_eq!(table.at(200.0), 740.0, max_relative = 1e-12);
    assert_relative_eq!(table.at(900.0), 1100.0, max_relative = 1e-12);
    Ok(())
}

#[test]
fn curve_between_entries() -> Tested {
    let table = TemperatureTable::new(280.0, 400.0, 0.5, |t| libm::exp(t / 50.0))?;
    for t in [300.1, 355.2, 390.3] {
        // Linear interpolation: (step / scale)² / 8.
        assert_relative_eq!(table.at(t), libm::exp(t / 50.0), max_relative = 1.3e-5);
    }
    Ok(())
}

#[test]
fn bad_tables_are_refused() {
    assert!(TemperatureTable::new(300.0, 300.0, 1.0, |t| t).is_err());
    assert!(TemperatureTable::new(300.0, 200.0, 1.0, |t| t).is_err());
    assert!(TemperatureTable::new(300.0, 400.0, 0.0, |t| t).is_err());
    assert!(matches!(TemperatureTable::new(300.0, 400.0, 1e-9, |t| t), Err(HeatError::Count { .. })));
    assert_eq!(TemperatureTable::new(300.0, 400.0, 50.0, |_| f64::NAN), Err(HeatError::NotFinite { index: 0 }));
}
