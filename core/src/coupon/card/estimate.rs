use libm::{exp, log};

use crate::coupon::regression::Regression;
use crate::coupon::student::student_quantile;

use super::{CONFIDENCE, LawFound};
use crate::numeric::halved_surely;

pub(super) fn row_error(fit: &Regression, row: &[f64]) -> f64 {
    let mut sum = 0.0;
    for (r, x) in row.iter().enumerate() {
        for (c, y) in row.iter().enumerate() {
            sum += x * y * fit.covariance[(r, c)];
        }
    }
    sum.max(0.0).sqrt()
}

/// Factors on the known stress scale within which another is looked for.
pub(super) const SCALES: (f64, f64) = (0.1, 10.0);

/// The stress scale of the least deviation: the range is walked, then narrowed by golden section.
pub(super) fn best_scale(known: f64, deviation: impl Fn(f64) -> Option<f64>) -> f64 {
    const WALK: usize = 60;
    let at = |ln_factor: f64| deviation(known * exp(ln_factor)).unwrap_or(f64::INFINITY);
    let (low, high) = (log(SCALES.0), log(SCALES.1));
    let step = (high - low) / WALK as f64;
    let best = (0..=WALK).map(|k| low + k as f64 * step).min_by(|a, b| at(*a).total_cmp(&at(*b))).unwrap_or(0.0);
    let golden = 0.5 * (5.0_f64.sqrt() - 1.0);
    let (mut a, mut b) = (best - step, best + step);
    for _ in 0..60 {
        let (c, d) = (b - golden * (b - a), a + golden * (b - a));
        if at(c) < at(d) {
            b = d;
        } else {
            a = c;
        }
    }
    known * exp(f64::midpoint(a, b))
}

/// Where the deviation has grown as much as Student's t allows for one more value: the profile of the likelihood.
pub(super) fn scale_range(best: f64, fit: &Regression, deviation: impl Fn(f64) -> Option<f64>) -> (f64, f64) {
    let freedom = fit.freedom().saturating_sub(1).max(1) as f64;
    let t = fit.t(CONFIDENCE);
    let limit = fit.deviation * (1.0 + t * t / freedom).sqrt();
    let beyond = |ln_factor: f64| deviation(best * exp(ln_factor)).is_none_or(|d| d > limit);
    let end = |sign: f64| {
        let (inside, _) = halved_surely((0.0, log(SCALES.1)), |_, _| false, |middle| !beyond(sign * middle));
        best * exp(sign * inside)
    };
    (end(-1.0), end(1.0))
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
