//! Change of a rod's length.

use approx::assert_relative_eq;
use layload_core::life::{LifeError, StretchStation, rod_stretch};

use super::Tested;

fn station(position: f64) -> StretchStation {
    StretchStation { position, force: 800.0, stiffness: 6e5, creep_strain: 2e-4, expansion: 40e-6, warming: 50.0 }
}

#[test]
fn even_bar() -> Tested {
    let stretch = rod_stretch(&[station(0.0), station(0.03), station(0.09)])?;
    // N L / (E A), e L, alpha dT L.
    assert_relative_eq!(stretch.elastic, 800.0 * 0.09 / 6e5, max_relative = 1e-12);
    assert_relative_eq!(stretch.creep, 2e-4 * 0.09, max_relative = 1e-12);
    assert_relative_eq!(stretch.thermal, 40e-6 * 50.0 * 0.09, max_relative = 1e-12);
    assert_relative_eq!(stretch.total(), 120e-6 + 18e-6 + 180e-6, max_relative = 1e-12);
    // 0.8 mm cold, cylinder 0.05 mm longer when warm.
    assert_relative_eq!(stretch.remaining_clearance(0.8e-3, 0.05e-3), 0.85e-3 - 318e-6, max_relative = 1e-12);
    assert!(stretch.remaining_clearance(0.1e-3, 0.0) < 0.0);
    Ok(())
}

#[test]
fn tapered_bar() -> Tested {
    // Area linear from A to 3 A: integral of dx / A = L ln 3 / (2 A).
    let stations: Vec<StretchStation> = (0..=400)
        .map(|i| f64::from(i) / 400.0)
        .map(|x| StretchStation { stiffness: 6e5 * (1.0 + 2.0 * x), ..station(0.09 * x) })
        .collect();
    let expected = 800.0 * 0.09 * libm::log(3.0) / (2.0 * 6e5);
    // 1e-5: trapezoids, (1/400)² and a bit.
    assert_relative_eq!(rod_stretch(&stations)?.elastic, expected, max_relative = 1e-5);
    Ok(())
}

#[test]
fn bad_stations_are_refused() {
    assert_eq!(rod_stretch(&[station(0.0)]), Err(LifeError::TooShort { count: 1, least: 2 }));
    let got = rod_stretch(&[station(0.1), station(0.0)]);
    assert!(matches!(got, Err(LifeError::OutOfRange { quantity: "distance between stations", .. })), "{got:?}");
    let soft = StretchStation { stiffness: 0.0, ..station(0.1) };
    assert!(rod_stretch(&[station(0.0), soft]).is_err());
    let lost = StretchStation { force: f64::NAN, ..station(0.1) };
    assert_eq!(rod_stretch(&[station(0.0), lost]), Err(LifeError::NotFinite { index: 1 }));
}
