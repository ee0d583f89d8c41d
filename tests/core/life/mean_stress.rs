//! Mean-stress rules: their closed forms, their limits and their order.

use approx::assert_relative_eq;
use layload_core::life::{EquivalentAmplitude, LifeError, MeanStress, StressLife, WalkerExponent};
use proptest::prelude::*;

use super::Tested;

const ULTIMATE_PA: f64 = 60e6;

fn walker(exponent: f64) -> Result<MeanStress, LifeError> {
    Ok(MeanStress::Walker { exponent: WalkerExponent::new(exponent)? })
}

fn reversed(rule: MeanStress, amplitude_pa: f64, mean_pa: f64) -> Result<f64, String> {
    match rule.equivalent(amplitude_pa, mean_pa, ULTIMATE_PA) {
        EquivalentAmplitude::Reversed(amplitude_pa) => Ok(amplitude_pa),
        EquivalentAmplitude::Broken => Err("broken".into()),
    }
}

#[test]
fn closed_forms() -> Tested {
    let (a, m, u) = (10e6, 15e6, ULTIMATE_PA);
    // Dowling, Mechanical Behavior of Materials, ch. 9; 1e-12 is rounding.
    let power = libm::pow(a + m, 0.4) * libm::pow(a, 0.6);
    assert_relative_eq!(reversed(walker(0.6)?, a, m)?, power, max_relative = 1e-12);
    assert_relative_eq!(reversed(MeanStress::SmithWatsonTopper, a, m)?, ((a + m) * a).sqrt(), max_relative = 1e-12);
    assert_relative_eq!(reversed(MeanStress::Goodman, a, m)?, a / (1.0 - m / u), max_relative = 1e-12);
    assert_relative_eq!(reversed(MeanStress::Gerber, a, m)?, a / (1.0 - (m / u) * (m / u)), max_relative = 1e-12);
    Ok(())
}

#[test]
fn says_truly_whether_it_scales_with_stress() -> Tested {
    for rule in [walker(0.6)?, MeanStress::SmithWatsonTopper, MeanStress::Goodman, MeanStress::Gerber] {
        let (once, twice) = (reversed(rule, 5e6, 10e6)?, reversed(rule, 10e6, 20e6)?);
        let scales = (twice / once - 2.0).abs() < 1e-12;
        assert_eq!(rule.scales_with_stress(), scales, "{rule:?}: {once} and {twice}");
    }
    Ok(())
}

#[test]
fn exponent_is_written_as_it_was_read() -> Tested {
    let text = r#"{"walker":{"exponent":0.6}}"#;
    let rule: MeanStress = serde_json::from_str(text)?;
    assert_eq!(rule, walker(0.6)?);
    assert_eq!(serde_json::to_string(&rule)?, text);
    Ok(())
}

#[test]
fn walker_with_a_half_is_smith_watson_topper() -> Tested {
    for mean_pa in [-20e6, -9e6, 0.0, 5e6, 30e6] {
        let (a, b) = (reversed(walker(0.5)?, 10e6, mean_pa)?, reversed(MeanStress::SmithWatsonTopper, 10e6, mean_pa)?);
        assert_relative_eq!(a, b, max_relative = 1e-12);
    }
    Ok(())
}

#[test]
fn compressive_means() -> Tested {
    // Walker gives credit and reaches zero when the highest stress does; Goodman and Gerber give none.
    let mut before = f64::INFINITY;
    for mean_mpa in [0.0, -2.0, -5.0, -9.0, -9.999_999] {
        let got = reversed(walker(0.5)?, 10e6, mean_mpa * 1e6)?;
        assert!(got < before);
        before = got;
    }
    for mean_mpa in [-10.0, -11.0, -500.0] {
        assert_eq!(reversed(walker(0.5)?, 10e6, mean_mpa * 1e6)?.to_bits(), 0.0_f64.to_bits());
        assert_relative_eq!(reversed(MeanStress::Goodman, 10e6, mean_mpa * 1e6)?, 10e6);
        assert_relative_eq!(reversed(MeanStress::Gerber, 10e6, mean_mpa * 1e6)?, 10e6);
    }
    Ok(())
}

fn rules() -> impl Strategy<Value = MeanStress> {
    prop_oneof![
        (0.01_f64..=1.0).prop_filter_map("range", |g| walker(g).ok()),
        Just(MeanStress::Goodman),
        Just(MeanStress::Gerber),
        Just(MeanStress::SmithWatsonTopper),
    ]
}

#[test]
fn bad_numbers_never_pass_for_harmless() -> Tested {
    for rule in [walker(0.5)?, walker(1.0)?, MeanStress::Goodman, MeanStress::Gerber, MeanStress::SmithWatsonTopper] {
        for (amplitude, mean, ultimate) in [
            (f64::NAN, 0.0, ULTIMATE_PA),
            (1e6, f64::NAN, ULTIMATE_PA),
            (1e6, 0.0, f64::NAN),
            (f64::INFINITY, 0.0, ULTIMATE_PA),
            (1e6, f64::NEG_INFINITY, ULTIMATE_PA),
            (-1e6, 0.0, ULTIMATE_PA),
            (1e6, 0.0, 0.0),
            (1e6, -5e6, -1.0),
        ] {
            assert_eq!(rule.equivalent(amplitude, mean, ultimate), EquivalentAmplitude::Broken, "{rule:?}");
        }
    }
    Ok(())
}

#[test]
fn walker_exponent_is_checked_everywhere() -> Tested {
    for bad in [0.0, -0.5, 1.01, f64::NAN] {
        assert!(WalkerExponent::new(bad).is_err());
    }
    let read: MeanStress = serde_json::from_str(r#"{"walker":{"exponent":0.4}}"#)?;
    assert_eq!(read, walker(0.4)?);
    assert_eq!(serde_json::to_string(&MeanStress::SmithWatsonTopper)?, r#""smith-watson-topper""#);
    assert!(serde_json::from_str::<MeanStress>(r#"{"walker":{"exponent":1.4}}"#).is_err());
    Ok(())
}

proptest! {
    #[test]
    fn zero_mean_changes_nothing(rule in rules(), amplitude in 0.0_f64..59e6) {
        let got = reversed(rule, amplitude, 0.0);
        prop_assert!(got.as_ref().is_ok_and(|got| (got - amplitude).abs() <= 1e-12 * amplitude), "{got:?}");
    }

    #[test]
    fn life_never_rises_with_amplitude_or_tensile_mean(
        rule in rules(),
        amplitude in 0.0_f64..80e6,
        mean in -80e6_f64..80e6,
        more in 0.0_f64..20e6,
        exponent in 2.0_f64..20.0,
    ) {
        let line = StressLife::new(15e6, exponent);
        prop_assert!(line.is_ok());
        let life = |amplitude: f64, mean: f64| match rule.equivalent(amplitude, mean, ULTIMATE_PA) {
            EquivalentAmplitude::Reversed(a) => line.as_ref().map_or(f64::NAN, |line| line.cycles_to_failure(a)),
            EquivalentAmplitude::Broken => 0.0,
        };
        // A share for the rounding of powers; where the two are the same number of digits it is all there is.
        let slack = 1.0 + 1e-9;
        prop_assert!(life(amplitude + more, mean) <= life(amplitude, mean) * slack);
        prop_assert!(life(amplitude, mean + more) <= life(amplitude, mean) * slack);
    }

    #[test]
    fn reaching_the_ultimate_breaks(rule in rules(), amplitude in 0.0_f64..100e6, over in 0.0_f64..10e6) {
        // 1 Pa above it: the sum of amplitude and mean may round down by a hundred-millionth of a pascal.
        let mean = ULTIMATE_PA - amplitude + over + 1.0;
        prop_assert_eq!(rule.equivalent(amplitude, mean, ULTIMATE_PA), EquivalentAmplitude::Broken);
    }
}
