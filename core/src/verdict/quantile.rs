use super::summary::ModeMargin;
use crate::life::normal_quantile;

/// 10 % quantile of the standard normal distribution.
pub(super) const TEN_PERCENT: f64 = -1.281_551_565_544_600_4;

/// What lowers a median life or strength to what nine parts in ten reach.
pub(super) fn ten_percent_factor(deviation_log10: f64) -> f64 {
    libm::pow(10.0, TEN_PERCENT * deviation_log10)
}

/// Running time until a share of the parts has failed by any of the modes, s.
///
/// A mode that does not count time fails at once where its strength at that share is used up.
pub fn life_at(modes: &[ModeMargin], failed_share: f64) -> f64 {
    let quantile = normal_quantile(failed_share).unwrap_or(0.0);
    modes
        .iter()
        .map(|mode| {
            if let Some(median) = mode.median_life {
                return median * libm::pow(10.0, quantile * mode.deviation);
            }
            let shifted = mode.margin * libm::pow(10.0, (quantile - TEN_PERCENT) * mode.deviation);
            if shifted < 1.0 { 0.0 } else { f64::INFINITY }
        })
        .fold(f64::INFINITY, f64::min)
}
