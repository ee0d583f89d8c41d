//! Against tables of the distributions, to the digits they print.

use layload_core::coupon::{chi_squared_quantile, student_quantile};

/// Student's t: Abramowitz & Stegun, table 26.10; values from memory, confirmed with `scipy.stats.t.ppf`.
#[test]
fn student() {
    for (probability, freedom, table) in [
        (0.95, 1, 6.314),
        (0.975, 2, 4.303),
        (0.95, 5, 2.015),
        (0.975, 7, 2.365),
        (0.99, 10, 2.764),
        (0.995, 30, 2.750),
        (0.975, 120, 1.980),
    ] {
        let quantile = student_quantile(probability, freedom).unwrap();
        assert!((quantile - table).abs() < 6e-4, "{probability} {freedom}: {quantile}");
        assert!((student_quantile(1.0 - probability, freedom).unwrap() + quantile).abs() < 1e-9);
    }
    assert_eq!(student_quantile(0.0, 3), None);
    assert_eq!(student_quantile(0.5, 0), None);
}

/// Chi-squared: Abramowitz & Stegun, table 26.8; values from memory, confirmed with `scipy.stats.chi2.ppf`.
#[test]
fn chi_squared() {
    for (probability, freedom, table) in [
        (0.95, 1, 3.841),
        (0.95, 2, 5.991),
        (0.05, 5, 1.145),
        (0.9, 10, 15.987),
        (0.99, 29, 49.588),
        (0.025, 30, 16.791),
    ] {
        let quantile = chi_squared_quantile(probability, freedom).unwrap();
        assert!((quantile - table).abs() < 6e-4, "{probability} {freedom}: {quantile}");
    }
    assert_eq!(chi_squared_quantile(1.0, 3), None);
}
