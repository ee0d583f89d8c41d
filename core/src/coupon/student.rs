//! Student's and chi-squared distributions for whole numbers of degrees of freedom.
//!
//! Finite sums (Abramowitz & Stegun 26.7.3, 26.7.4, 26.4.4, 26.4.5) with `libm` alone, for the reason that
//! `life/normal.rs` gives.

use core::f64::consts::{FRAC_2_PI, FRAC_PI_2, PI};

use crate::numeric::halved_surely;
use libm::{atan, cos, exp, sin, sqrt};

use crate::life::normal_probability;

/// Beyond so many degrees of freedom the sums are long and the normal distribution is as good to four digits.
const MANY: usize = 20_000;

/// The value below which Student's t with `freedom` degrees lies with a probability strictly between 0 and 1; `None`
/// otherwise, or without a degree of freedom.
pub fn student_quantile(probability: f64, freedom: usize) -> Option<f64> {
    if !(probability > 0.0 && probability < 1.0) || freedom == 0 {
        return None;
    }
    if freedom > MANY {
        return crate::life::normal_quantile(probability);
    }
    let tail = probability.max(1.0 - probability);
    // Even Cauchy's law reaches a tail of 1e-15 before this.
    let size = middle_of(halved_surely((0.0, 1e16), |_, _| false, |t| student_probability(t, freedom) < tail));
    Some(if probability < 0.5 { -size } else { size })
}

/// Probability that Student's t lies below a value from 0.
fn student_probability(t: f64, freedom: usize) -> f64 {
    let angle = if t > 1e15 { FRAC_PI_2 } else { atan(t / sqrt(freedom as f64)) };
    let (sine, cosine) = (sin(angle), cos(angle));
    let odd = freedom % 2 == 1;
    let terms = if odd { freedom.saturating_sub(1) / 2 } else { freedom / 2 };
    let mut term = if odd { cosine } else { 1.0 };
    let mut sum = 0.0;
    for k in 0..terms {
        sum += term;
        let step = if odd { 2 * k + 2 } else { 2 * k + 1 } as f64;
        term *= step / (step + 1.0) * cosine * cosine;
    }
    let within = if odd { FRAC_2_PI * (angle + sine * sum) } else { sine * sum };
    0.5 + 0.5 * within
}

/// The value below which chi-squared with `freedom` degrees lies with a probability strictly between 0 and 1; `None`
/// otherwise, or without a degree of freedom.
pub fn chi_squared_quantile(probability: f64, freedom: usize) -> Option<f64> {
    if !(probability > 0.0 && probability < 1.0) || freedom == 0 || freedom > MANY {
        return None;
    }
    let spread = freedom as f64 + 40.0 * sqrt(2.0 * freedom as f64) + 100.0;
    let below = |x: f64| chi_squared_probability(x, freedom) < probability;
    Some(middle_of(halved_surely((0.0, spread), |_, _| false, below)))
}

/// Probability that chi-squared lies below a value.
pub(crate) fn chi_squared_probability(x: f64, freedom: usize) -> f64 {
    if x <= 0.0 {
        return 0.0;
    }
    let half = x / 2.0;
    let above = if freedom.is_multiple_of(2) {
        let (mut term, mut sum) = (1.0, 1.0);
        for k in 1..freedom / 2 {
            term *= half / k as f64;
            sum += term;
        }
        exp(-half) * sum
    } else {
        let root = sqrt(x);
        let mut sum = 0.0;
        let mut term = root;
        for k in 0..(freedom - 1) / 2 {
            sum += term;
            term *= x / (2 * k + 3) as f64;
        }
        2.0 * (normal_probability(-root) + exp(-half) / sqrt(2.0 * PI) * sum)
    };
    // Where the exponential underflows nothing is left above.
    if above.is_nan() { 1.0 } else { (1.0 - above).clamp(0.0, 1.0) }
}

fn middle_of((low, high): (f64, f64)) -> f64 {
    f64::midpoint(low, high)
}
