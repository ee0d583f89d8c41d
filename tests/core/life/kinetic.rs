//! C20: the kinetic law of strength and Bailey's integral.

use approx::assert_relative_eq;
use layload_core::life::{GAS_CONSTANT_J_MOL_K, KineticStrength, LifeError};
use proptest::prelude::*;

use super::Tested;

/// Of the order of a polyamide (invented): 170 kilojoules a mole, and g such that sixty megapascals break it within a
/// second when warm.
fn polyamide() -> Result<KineticStrength, LifeError> {
    KineticStrength::new(1e-13, 170e3, 1.6e-3)
}

#[test]
fn damage_of_the_ramp_to_its_end_is_one() -> Tested {
    let (law, t, rate_pa_s) = (polyamide()?, 330.0, 1e6);
    let history: Vec<f64> = (0..=200).map(|n| f64::from(n) * rate_pa_s).collect();
    let end_s = law.failure_time_s(&history, 1.0, t)?.ok_or("outlived the ramp")?;
    let to_end: Vec<f64> = (0..=10).map(|n| f64::from(n) * end_s / 10.0 * rate_pa_s).collect();
    assert_relative_eq!(law.damage_of_history(&to_end, end_s / 10.0, t)?, 1.0, max_relative = 1e-9);
    Ok(())
}

#[test]
fn sine_against_the_bessel_function() -> Tested {
    // Mean of exp(z sin) over a period is I_0(z) = sum of (z/2)^(2k) / (k!)^2 (Abramowitz & Stegun 9.6.10, 9.6.16).
    let (law, t, mean_pa, amplitude_pa) = (polyamide()?, 330.0, 25e6, 20e6);
    let z = 1.6e-3 * amplitude_pa / (GAS_CONSTANT_J_MOL_K * t);
    let (mut term, mut bessel) = (1.0, 1.0);
    for k in 1..60 {
        term *= z * z / 4.0 / f64::from(k * k);
        bessel += term;
    }
    let period: Vec<f64> =
        (0..720).map(|n| mean_pa + amplitude_pa * libm::sin(f64::from(n).to_radians() / 2.0)).collect();
    let expected = law.damage_rate_per_s(mean_pa, t)? * bessel;
    // 1e-4: chords of half a degree under the sine, z h^2 / 12 of the rate at the peak.
    assert_relative_eq!(law.mean_damage_rate_per_s(&period, t)?, expected, max_relative = 1e-4);
    Ok(())
}

#[test]
fn two_samples_are_joined_by_straight_lines() -> Tested {
    // The mean of exp over a line between two values: their difference over that of their logarithms.
    let law = polyamide()?;
    let (low, high) = (law.damage_rate_per_s(10e6, 330.0)?, law.damage_rate_per_s(60e6, 330.0)?);
    let mean = law.mean_damage_rate_per_s(&[10e6, 60e6], 330.0)?;
    assert_relative_eq!(mean, (high - low) / libm::log(high / low), max_relative = 1e-9);
    let again =
        KineticStrength::new(law.attempt_time_s(), law.activation_energy_j_mol(), law.activation_volume_m3_mol())?;
    assert_eq!(again, law);
    assert_eq!(law.attempt_time_s(), 1e-13);
    Ok(())
}

#[test]
fn compression_counts_as_no_stress() -> Tested {
    let (law, t) = (polyamide()?, 330.0);
    let rest = law.damage_rate_per_s(0.0, t)?;
    assert_relative_eq!(law.damage_rate_per_s(-50e6, t)?, rest);
    assert_relative_eq!(law.mean_damage_rate_per_s(&[-10e6, -50e6, -20e6], t)?, rest, max_relative = 1e-15);
    // From -10 to +30 MPa: a quarter of the way at rest, the rest a ramp from zero.
    let ramp = law.damage_of_history(&[0.0, 30e6], 3.0, t)?;
    assert_relative_eq!(law.damage_of_history(&[-10e6, 30e6], 4.0, t)?, rest + ramp, max_relative = 1e-12);
    assert_relative_eq!(law.damage_of_history(&[30e6, -10e6], 4.0, t)?, rest + ramp, max_relative = 1e-12);
    Ok(())
}

#[test]
fn failure_within_a_step_that_crosses_zero() -> Tested {
    let (law, t) = (polyamide()?, 330.0);
    // Rise and fall of the same size: in the falling step the damage is done before the crossing.
    for (from, to) in [(-20e6, 180e6), (180e6, -20e6)] {
        let got = law.failure_time_s(&[from, to], 100.0, t)?.ok_or("outlived the step")?;
        let stress = from + (to - from) * got / 100.0;
        let steps = if from < to { vec![0.0, stress] } else { vec![from, stress] };
        let tension_s = if from < to { got - 10.0 } else { got };
        let rest = if from < to { 10.0 * law.damage_rate_per_s(0.0, t)? } else { 0.0 };
        assert_relative_eq!(law.damage_of_history(&steps, tension_s, t)? + rest, 1.0, max_relative = 1e-9);
    }
    Ok(())
}

#[test]
fn law_through_a_short_test() -> Tested {
    let law = KineticStrength::through(1e-13, 170e3, 60e6, 10.0, 296.0)?;
    assert_relative_eq!(law.time_to_failure_s(60e6, 296.0)?, 10.0, max_relative = 1e-9);
    // A barrier too low to last ten seconds without any stress.
    let got = KineticStrength::through(1e-13, 60e3, 60e6, 10.0, 296.0);
    assert!(matches!(got, Err(LifeError::OutOfRange { quantity: "activation volume", .. })), "{got:?}");
    Ok(())
}

#[test]
fn bad_numbers_are_refused() -> Tested {
    let law = polyamide()?;
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(KineticStrength::new(bad, 170e3, 1e-3).is_err());
        assert!(KineticStrength::new(1e-13, bad, 1e-3).is_err());
        assert!(KineticStrength::new(1e-13, 170e3, bad).is_err());
        assert!(law.time_to_failure_s(1e6, bad).is_err());
        assert!(law.mean_damage_rate_per_s(&[1e6], bad).is_err());
        assert!(law.damage_of_history(&[1e6, 1e6], bad, 300.0).is_err());
        assert!(law.failure_time_s(&[1e6, 1e6], bad, 300.0).is_err());
    }
    assert_eq!(law.damage_rate_per_s(f64::NAN, 300.0), Err(LifeError::NotFinite { index: 0 }));
    assert_eq!(law.mean_damage_rate_per_s(&[], 300.0), Err(LifeError::TooShort { count: 0, least: 1 }));
    assert_eq!(law.damage_of_history(&[1e6], 1.0, 300.0), Err(LifeError::TooShort { count: 1, least: 2 }));
    assert_eq!(law.failure_time_s(&[1e6, f64::NAN], 1.0, 300.0), Err(LifeError::NotFinite { index: 1 }));
    Ok(())
}

proptest! {
    #[test]
    fn life_falls_with_stress_and_heat(stress in 0.0_f64..80e6, t in 250.0_f64..450.0) {
        let life = |stress, t| polyamide().and_then(|law| law.time_to_failure_s(stress, t)).unwrap_or(f64::NAN);
        prop_assert!(life(stress + 1e6, t) < life(stress, t));
        prop_assert!(life(stress, t + 1.0) < life(stress, t));
    }

    #[test]
    fn mean_rate_lies_between_the_extremes(period in prop::collection::vec(-50e6_f64..80e6, 1..40)) {
        let highest = period.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let lowest = period.iter().copied().fold(f64::INFINITY, f64::min);
        let all = polyamide().and_then(|law| {
            Ok((
                law.damage_rate_per_s(lowest, 330.0)?,
                law.mean_damage_rate_per_s(&period, 330.0)?,
                law.damage_rate_per_s(highest, 330.0)?,
            ))
        });
        prop_assert!(all.as_ref().is_ok_and(|(a, b, c)| *a <= b * (1.0 + 1e-12) && *b <= c * (1.0 + 1e-12)), "{all:?}");
    }

    #[test]
    fn failure_is_where_damage_reaches_one(history in prop::collection::vec(-50e6_f64..110e6, 2..40)) {
        let both = polyamide().and_then(|law| {
            Ok((law.failure_time_s(&history, 2.0, 330.0)?, law.damage_of_history(&history, 2.0, 330.0)?))
        });
        prop_assert!(both.is_ok());
        if let Ok((end, damage)) = both {
            prop_assert_eq!(end.is_some(), damage >= 1.0);
            prop_assert!(end.is_none_or(|end| end >= 0.0 && end <= 2.0 * (history.len() - 1) as f64));
        }
    }
}
