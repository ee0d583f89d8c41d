use libm::exp;

use crate::coupon::regression::Regression;
use crate::coupon::student::student_quantile;

use super::{CONFIDENCE, LawFound, ONE_DEVIATION};

/// Standard error of a sum of coefficients, each times a number of the row.
pub(super) fn row_error(fit: &Regression, row: &[f64]) -> f64 {
    let mut sum = 0.0;
    for (r, x) in row.iter().enumerate() {
        for (c, y) in row.iter().enumerate() {
            sum += x * y * fit.covariance[(r, c)];
        }
    }
    sum.max(0.0).sqrt()
}

/// Spread of a value that was fitted as it is, over the value.
pub(super) fn relative(fit: &Regression, column: usize, value: f64, confidence: f64) -> f64 {
    fit.t(confidence) * fit.standard_error(column) / value
}

impl LawFound {
    /// A value that was fitted as it is.
    pub(super) fn plain(fit: &Regression, column: usize, value: f64, count: usize, how: &str) -> Self {
        let reach = fit.t(CONFIDENCE) * fit.standard_error(column);
        let spread = relative(fit, column, value, ONE_DEVIATION);
        Self { value, spread, range: (value - reach, value + reach), count, run_outs: fit.run_outs, how: how.into() }
    }

    /// A value that was fitted by its logarithm.
    pub(super) fn by_log(fit: &Regression, column: usize, value: f64, count: usize, how: &str) -> Self {
        Self::log_within(fit, fit.standard_error(column), value, count, how)
    }

    /// A value whose logarithm has a standard error.
    pub(super) fn log_within(fit: &Regression, error: f64, value: f64, count: usize, how: &str) -> Self {
        let reach = fit.t(CONFIDENCE) * error;
        // Beyond this a value is open, and its range says how far.
        let spread = (fit.t(ONE_DEVIATION) * error).min(5.0);
        let range = (value * exp(-reach), value * exp(reach));
        Self { value, spread, range, count, run_outs: fit.run_outs, how: how.into() }
    }
}

/// Mean of values that scatter by a known deviation of log10.
pub(super) fn mean_of(values: &[f64], scatter: f64, freedom: usize, how: &str) -> LawFound {
    let mean = values.iter().sum::<f64>() / values.len() as f64;
    let error = scatter * core::f64::consts::LN_10 / (values.len() as f64).sqrt();
    let reach = student_quantile(f64::midpoint(1.0, CONFIDENCE), freedom).unwrap_or(f64::INFINITY);
    let one = student_quantile(0.841_344_746_069, freedom).unwrap_or(1.0);
    LawFound {
        value: mean,
        spread: one * error,
        range: (mean * exp(-reach * error), mean * exp(reach * error)),
        count: values.len(),
        run_outs: 0,
        how: how.into(),
    }
}

pub(super) fn scatter_of(scatter: f64, freedom: usize, count: usize, how: &str) -> LawFound {
    let of = |probability: f64| {
        let quantile = crate::coupon::student::chi_squared_quantile(probability, freedom).unwrap_or(freedom as f64);
        scatter * (freedom as f64 / quantile).sqrt()
    };
    LawFound {
        value: scatter,
        spread: 1.0 / (2.0 * freedom as f64).sqrt(),
        range: (of(f64::midpoint(1.0, CONFIDENCE)), of((1.0 - CONFIDENCE) / 2.0)),
        count,
        run_outs: 0,
        how: how.into(),
    }
}
