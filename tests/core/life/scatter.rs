//! C28 and the normal distribution.

use approx::assert_relative_eq;
use layload_core::life::{LifeError, LogNormalLife, combined_deviation_log10, normal_probability, normal_quantile};
use proptest::prelude::*;

use super::Tested;

#[test]
fn quantiles_against_a_general_library() -> Tested {
    // `statistics.NormalDist().inv_cdf` of Python 3.11 (same published algorithm) and, to ten digits, any table.
    for (p, z) in QUANTILES {
        let got = normal_quantile(p).ok_or("no quantile")?;
        // 1e-14 relative: a few units in the last place of the logarithm.
        assert_relative_eq!(got, z, max_relative = 1e-14);
    }
    assert_relative_eq!(normal_quantile(0.5).ok_or("no quantile")?, 0.0);
    Ok(())
}

#[test]
fn probabilities_that_are_none() -> Tested {
    for bad in [0.0, 1.0, -0.1, 1.1, f64::NAN] {
        assert_eq!(normal_quantile(bad), None);
        assert!(matches!(LogNormalLife::new(1.0, 0.3)?.life_at(bad), Err(LifeError::OutOfRange { .. })));
    }
    Ok(())
}

#[test]
fn endless_and_ended_lives() -> Tested {
    let endless = LogNormalLife::new(f64::INFINITY, 0.3)?;
    assert!(endless.life_at(0.01)?.is_infinite());
    assert_relative_eq!(endless.failed_by(1e12), 0.0);
    let ended = LogNormalLife::new(0.0, 0.3)?;
    assert_relative_eq!(ended.life_at(0.99)?, 0.0);
    assert_relative_eq!(ended.failed_by(0.0), 1.0);
    let sharp = LogNormalLife::new(100.0, 0.0)?;
    assert_relative_eq!(sharp.failed_by(99.9), 0.0);
    assert_relative_eq!(sharp.failed_by(100.0), 1.0);
    assert_relative_eq!(LogNormalLife::new(100.0, 0.3)?.failed_by(0.0), 0.0);
    Ok(())
}

#[test]
fn variances_add() -> Tested {
    // 3-4-5: life 0.3, strength 0.05 on a line of k = 8.
    assert_relative_eq!(combined_deviation_log10(0.3, 8.0, 0.05)?, 0.5, max_relative = 1e-12);
    assert_relative_eq!(combined_deviation_log10(0.3, 8.0, 0.0)?, 0.3, max_relative = 1e-12);
    for bad in [-0.1, f64::NAN, f64::INFINITY] {
        assert!(combined_deviation_log10(bad, 8.0, 0.05).is_err());
        assert!(combined_deviation_log10(0.3, 8.0, bad).is_err());
        assert!(combined_deviation_log10(0.3, bad, 0.05).is_err());
        assert!(LogNormalLife::new(1.0, bad).is_err());
    }
    assert!(LogNormalLife::new(-1.0, 0.1).is_err());
    assert!(LogNormalLife::new(f64::NAN, 0.1).is_err());
    Ok(())
}

proptest! {
    #[test]
    fn quantile_and_probability_are_inverse(z in -8.0_f64..5.0) {
        let back = normal_quantile(normal_probability(z));
        // Above zero the probability nears 1 and loses digits: 1e-16 over the density at 5 is 1e-10.
        let slack = if z > 0.0 { 2e-10 } else { 1e-13 };
        prop_assert!(back.is_some_and(|back| (back - z).abs() <= slack * z.abs().max(1.0)), "{back:?}");
    }

    #[test]
    fn fraction_and_life_are_inverse(median in 1.0_f64..1e9, s in 0.01_f64..2.0, p in 0.001_f64..0.999) {
        let back = LogNormalLife::new(median, s).and_then(|life| Ok(life.failed_by(life.life_at(p)?)));
        // log10 of a life near 1e9 is known to 1e-15, over the least s of 0.01.
        prop_assert!(back.as_ref().is_ok_and(|back| (back - p).abs() < 1e-11), "{back:?}");
    }
}

/// Probability and quantile.
const QUANTILES: [(f64, f64); 17] = [
    (1e-300, -37.047_096_299_361_2),
    (1e-20, -9.262_340_089_798_405),
    (1e-9, -5.997_807_015_007_686_5),
    (1e-6, -4.753_424_308_822_899),
    (0.000_1, -3.719_016_485_455_68),
    (0.001, -3.090_232_306_167_813),
    (0.01, -2.326_347_874_040_840_8),
    (0.05, -1.644_853_626_951_472_6),
    (0.07, -1.475_791_028_179_170_2),
    (0.1, -1.281_551_565_544_600_8),
    (0.25, -0.674_489_750_196_081_7),
    (0.4, -0.253_347_103_135_799_8),
    (0.6, 0.253_347_103_135_799_8),
    (0.9, 1.281_551_565_544_600_8),
    (0.93, 1.475_791_028_179_170_8),
    (0.99, 2.326_347_874_040_840_8),
    (0.999_999, 4.753_424_308_817_089),
];
