//! C5 and C6: round plates.

use approx::assert_relative_eq;
use layload_core::stress::{RoundPlate, StressError};

type Tested = Result<(), Box<dyn std::error::Error>>;

/// Bending of a round plate under even pressure by integrating the plate equation, for a check of the closed forms.
///
/// With the slope phi and the shear force `p r / 2`, `D [1/r (r phi)']' = -p r / 2` gives `phi = -p r³/(16 D) + c r`; moments
/// are `D (phi' + nu phi / r)` along the radius and `D (phi / r + nu phi')` round it. The edge fixes c; deflection is the
/// integral of phi. Returns the radial moment at the edge, the moment in the middle and the deflection.
fn by_integration(p: f64, a: f64, d: f64, nu: f64, clamped: bool) -> (f64, f64, f64) {
    let particular = |r: f64| -p * r * r * r / (16.0 * d);
    let c = if clamped {
        -particular(a) / a
    } else {
        // M_r(a) = 0: -3 p a²/16 + D c + nu (-p a²/16 + D c) = 0.
        p * a * a / 16.0 * (3.0 + nu) / (1.0 + nu) / d
    };
    let slope = |r: f64| particular(r) + c * r;
    let edge = d * (-3.0 * p * a * a / (16.0 * d) + c + nu * slope(a) / a);
    let center = d * c * (1.0 + nu);
    // Simpson over 200 strips: exact for the cubic.
    let strips = 200;
    let width = a / f64::from(strips);
    let deflection: f64 = (0..strips)
        .map(|i| width * f64::from(i))
        .map(|r| width / 6.0 * (slope(r) + 4.0 * slope(r + width / 2.0) + slope(r + width)))
        .sum();
    (edge, center, deflection)
}

#[test]
fn clamped_edge() -> Tested {
    // Roark: edge 3 p a² / (4 t²), centre deflection p a^4 / (64 D).
    let (p, a, t, e, nu) = (2.5e6, 0.024, 0.005, 3.2e9, 0.38);
    let plate = RoundPlate::new(a, t, e, nu)?;
    let found = plate.clamped(p);
    let d = e * t * t * t / (12.0 * (1.0 - nu * nu));
    // 1e-9 asked; one formula against the same in another order of factors.
    assert_relative_eq!(found.edge_stress, 3.0 * p * a * a / (4.0 * t * t), max_relative = 1e-12);
    assert_relative_eq!(found.center_deflection, p * (a * a * a * a) / (64.0 * d), max_relative = 1e-12);
    let (edge, center, deflection) = by_integration(p, a, d, nu, true);
    // Outer fibre: 6 M / t². The clamped edge bends the other way: tension on the loaded side.
    assert_relative_eq!(found.edge_stress, -6.0 * edge / (t * t), max_relative = 1e-9);
    assert_relative_eq!(found.center_stress, 6.0 * center / (t * t), max_relative = 1e-9);
    assert_relative_eq!(found.center_deflection, deflection, max_relative = 1e-9);
    assert_relative_eq!(found.greatest_stress(), found.edge_stress);
    Ok(())
}

#[test]
fn supported_edge() -> Tested {
    // Roark: centre 3 (3 + nu) p a² / (8 t²).
    let (p, a, t, e, nu) = (1.8e6, 0.03, 0.004, 2.4e9, 0.3);
    let plate = RoundPlate::new(a, t, e, nu)?;
    let found = plate.supported(p);
    assert_relative_eq!(found.center_stress, 3.0 * (3.0 + nu) * p * a * a / (8.0 * t * t), max_relative = 1e-12);
    let (edge, center, deflection) = by_integration(p, a, plate.bending_stiffness(), nu, false);
    assert!(edge.abs() < 1e-9 * center);
    assert_relative_eq!(found.center_stress, 6.0 * center / (t * t), max_relative = 1e-9);
    assert_relative_eq!(found.center_deflection, deflection, max_relative = 1e-9);
    assert_relative_eq!(found.edge_stress, 0.0);
    Ok(())
}

#[test]
fn bad_numbers_are_refused() {
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(RoundPlate::new(bad, 0.01, 1e9, 0.3).is_err());
        assert!(RoundPlate::new(0.1, bad, 1e9, 0.3).is_err());
        assert!(RoundPlate::new(0.1, 0.01, bad, 0.3).is_err());
    }
    let got = RoundPlate::new(0.1, 0.01, 1e9, 0.6);
    assert!(matches!(got, Err(StressError::OutOfRange { quantity: "Poisson's ratio", .. })), "{got:?}");
}
