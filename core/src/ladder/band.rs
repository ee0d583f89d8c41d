use libm::{exp, log};

use crate::numeric::sort_few;

/// Where a number lies: 90 % between `low` and `high`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// 5 % lie below.
    pub low: f64,
    /// Half lie below.
    pub middle: f64,
    /// 5 % lie above.
    pub high: f64,
}

impl Band {
    /// Width on the scale of logarithms.
    pub fn width(&self) -> f64 {
        log(self.high / self.low)
    }

    /// How many times narrower than another.
    pub fn narrower_than(&self, other: &Self) -> f64 {
        other.width() / self.width().max(1e-9)
    }

    /// Whether a number lies in it.
    pub fn holds(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }
}

/// The band of positive numbers with weights that add up to 1; between two numbers it is a straight line in their logarithms.
pub(super) fn band(mut list: Vec<(f64, f64)>) -> Band {
    sort_few(&mut list, |a, b| a.0.total_cmp(&b.0));
    let quantile = |share: f64| {
        let (mut below, mut last) = (0.0, None);
        for (value, weight) in &list {
            // Each number stands for the middle of its weight.
            let here = below + 0.5 * weight;
            if here >= share {
                return match last {
                    Some((before, at)) if here > at => {
                        let along = (share - at) / (here - at);
                        exp(log(before) + along * (log(*value) - log(before)))
                    }
                    _ => *value,
                };
            }
            last = Some((*value, here));
            below += weight;
        }
        last.map_or(0.0, |(value, _)| value)
    };
    Band { low: quantile(0.05), middle: quantile(0.5), high: quantile(0.95) }
}
