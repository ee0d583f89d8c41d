/// 10 % quantile of the standard normal distribution.
pub(crate) const TEN_PERCENT: f64 = -1.281_551_565_544_600_4;

/// What lowers a median life or strength to what nine parts in ten reach.
pub(crate) fn ten_percent_factor(deviation_log10: f64) -> f64 {
    libm::pow(10.0, TEN_PERCENT * deviation_log10)
}

/// Logarithm of [`ten_percent_factor`].
pub(crate) fn ln_ten_percent_factor(deviation_log10: f64) -> f64 {
    TEN_PERCENT * deviation_log10 * core::f64::consts::LN_10
}
