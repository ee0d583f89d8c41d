//! C21: Findley's law with time-temperature shift.

use approx::assert_relative_eq;
use layload_core::life::{CreepStep, Findley, LifeError};
use libm::sinh;
use proptest::prelude::*;

use super::Tested;

/// Of the order of a filled nylon (invented).
fn law() -> Result<Findley, LifeError> {
    Findley::new(4e-4, 12e6, 0.22, 110e3, 296.15)
}

#[test]
fn steps_of_one_stress_are_one_step() -> Tested {
    let step = |seconds| CreepStep { stress_pa: 14e6, temperature_k: 330.0, seconds };
    let whole = law()?.strain(14e6, 700.0, 330.0)?;
    assert_relative_eq!(law()?.strain_after(&[step(100.0), step(250.0), step(350.0)])?, whole, max_relative = 1e-12);
    assert_relative_eq!(law()?.strain_after(&[])?, 0.0);
    Ok(())
}

#[test]
fn warm_time_is_longer_time() -> Tested {
    // Half an hour at two temperatures is the sum of the reduced times.
    let law = law()?;
    let steps = [300.0, 350.0].map(|temperature_k| CreepStep { stress_pa: 9e6, temperature_k, seconds: 900.0 });
    let reduced = 900.0 / law.shift(300.0)? + 900.0 / law.shift(350.0)?;
    assert_relative_eq!(law.strain_after(&steps)?, law.strain(9e6, reduced, 296.15)?, max_relative = 1e-12);
    assert_relative_eq!(law.shift(296.15)?, 1.0);
    Ok(())
}

#[test]
fn repeating_stress() -> Tested {
    let law = law()?;
    assert_relative_eq!(law.equivalent_stress_pa(&[7e6; 5])?, 7e6, max_relative = 1e-12);
    assert_relative_eq!(law.equivalent_stress_pa(&[7e6, -7e6])?, 0.0, epsilon = 1e-6);
    // Mean of sinh over a sine is sinh(mean) I_0(amplitude) (Abramowitz & Stegun 9.6.16), series of I_0.
    let (mean, amplitude) = (6e6, 18e6);
    let (mut term, mut bessel) = (1.0, 1.0);
    for k in 1..40 {
        term *= (amplitude / 12e6) * (amplitude / 12e6) / 4.0 / f64::from(k * k);
        bessel += term;
    }
    let period: Vec<f64> = (0..360).map(|i| mean + amplitude * libm::sin(f64::from(i).to_radians())).collect();
    let expected = 12e6 * libm::asinh(sinh(mean / 12e6) * bessel);
    assert_relative_eq!(law.equivalent_stress_pa(&period)?, expected, max_relative = 1e-12);
    Ok(())
}

#[test]
fn creep_modulus() -> Tested {
    let law = law()?;
    let strain = 10e6 / 2e9 + law.strain(10e6, 3600.0, 330.0)?;
    assert_relative_eq!(law.creep_modulus_pa(2e9, 10e6, 3600.0, 330.0)?, 10e6 / strain, max_relative = 1e-12);
    Ok(())
}

#[test]
fn bad_numbers_are_refused() -> Tested {
    for bad in [-1.0, f64::NAN, f64::INFINITY] {
        assert!(Findley::new(bad, 1e7, 0.2, 1e5, 296.0).is_err());
        assert!(Findley::new(1e-4, bad, 0.2, 1e5, 296.0).is_err());
        assert!(Findley::new(1e-4, 1e7, bad, 1e5, 296.0).is_err());
        assert!(Findley::new(1e-4, 1e7, 0.2, bad, 296.0).is_err());
        assert!(Findley::new(1e-4, 1e7, 0.2, 1e5, bad).is_err());
        assert!(law()?.strain(1e6, bad, 300.0).is_err());
        assert!(law()?.strain(1e6, 1.0, bad).is_err());
    }
    assert!(Findley::new(1e-4, 1e7, 1.2, 1e5, 296.0).is_err());
    assert_eq!(law()?.strain(f64::NAN, 1.0, 300.0), Err(LifeError::NotFinite { index: 0 }));
    assert_eq!(law()?.equivalent_stress_pa(&[]), Err(LifeError::TooShort { count: 0, least: 1 }));
    Ok(())
}

proptest! {
    #[test]
    fn strain_grows_with_stress_time_and_heat(
        stress in 1e5_f64..40e6, seconds in 1.0_f64..1e7, kelvin in 260.0_f64..420.0,
    ) {
        let strain = |s, t, k| law().and_then(|law| law.strain(s, t, k)).unwrap_or(f64::NAN);
        let base = strain(stress, seconds, kelvin);
        prop_assert!(strain(stress * 1.01, seconds, kelvin) > base);
        prop_assert!(strain(stress, seconds * 1.01, kelvin) > base);
        prop_assert!(strain(stress, seconds, kelvin + 1.0) > base);
    }
}
