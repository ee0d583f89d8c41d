//! Where something changes over between two numbers.
//!
//! Written here because each use has its own sense of near enough and half of them may fail on the way; the root finders of the
//! registry take neither.

/// Halvings after which neighbouring floats are reached in any case.
const MOST: usize = 200;

/// Halves the range between `good`, where something holds, and `bad`, where it does not, until `near` says so of both; gives
/// the ends that are left.
///
/// # Errors
///
/// The first that `holds` gives.
pub fn halved<E>(
    (mut good, mut bad): (f64, f64),
    near: impl Fn(f64, f64) -> bool,
    mut holds: impl FnMut(f64) -> Result<bool, E>,
) -> Result<(f64, f64), E> {
    for _ in 0..MOST {
        let middle = f64::midpoint(good, bad);
        if near(good, bad) || middle == good || middle == bad {
            break;
        }
        if holds(middle)? {
            good = middle;
        } else {
            bad = middle;
        }
    }
    Ok((good, bad))
}

/// The same of what cannot fail.
pub fn halved_surely(
    ends: (f64, f64),
    near: impl Fn(f64, f64) -> bool,
    mut holds: impl FnMut(f64) -> bool,
) -> (f64, f64) {
    let Ok(ends) = halved::<core::convert::Infallible>(ends, near, |at| Ok(holds(at)));
    ends
}

/// Where a rising function crosses zero between two places, each with its value: secants, the value of an end that stays
/// halved (the Illinois rule; Dowell & Jarratt 1971), so that neither end can stall.
pub fn crossing(
    (mut low, mut below): (f64, f64),
    (mut high, mut above): (f64, f64),
    value: impl Fn(f64) -> f64,
) -> f64 {
    let mut kept = 0.0_f64;
    for _ in 0..MOST {
        if high - low < 1e-9 {
            break;
        }
        let secant = low + (high - low) * (below / (below - above));
        let next = if secant > low && secant < high { secant } else { f64::midpoint(low, high) };
        let here = value(next);
        if here.abs() < 1e-10 {
            return next;
        }
        if here < 0.0 {
            (low, below) = (next, here);
            if kept < 0.0 {
                above *= 0.5;
            }
        } else {
            (high, above) = (next, here);
            if kept > 0.0 {
                below *= 0.5;
            }
        }
        kept = here;
    }
    f64::midpoint(low, high)
}

/// The place at which a factor falls through 1, between one that is above and one that is not, each with its factor.
///
/// Regula falsi in the logarithms, with every third step halving the range, so that a bend in the curve cannot stall it; ends
/// within the relative width `width` on the side that holds.
///
/// # Errors
///
/// The first that `factor` gives.
pub fn falls_through_one<E>(
    mut good: (f64, f64),
    mut bad: (f64, f64),
    width: f64,
    factor: impl Fn(f64) -> Result<f64, E>,
) -> Result<f64, E> {
    let mut step = 0;
    while (bad.0 - good.0).abs() > width * good.0 && step < 60 {
        let (a, b) = (libm::log(good.1), libm::log(bad.1.max(1e-12)));
        let share = if step % 3 == 2 { 0.5 } else { (a / (a - b)).clamp(0.02, 0.98) };
        let at = good.0 + (bad.0 - good.0) * share;
        let here = (at, factor(at)?);
        if here.1 >= 1.0 {
            good = here;
        } else {
            bad = here;
        }
        step += 1;
    }
    Ok(good.0)
}

#[cfg(test)]
mod tests {
    use super::{crossing, falls_through_one, halved, halved_surely};

    #[test]
    fn halving_ends_where_it_is_told_to() {
        let (good, bad) = halved_surely((0.0, 2.0), |good, bad| bad - good < 1e-6, |x| x * x < 2.0);
        assert!(good < core::f64::consts::SQRT_2 && core::f64::consts::SQRT_2 <= bad && bad - good < 1e-6);
        // Downward as well, and to neighbouring floats where nothing is near enough.
        let (good, bad) = halved_surely((2.0, 0.0), |_, _| false, |x| x * x > 2.0);
        assert!((good - core::f64::consts::SQRT_2).abs() <= f64::EPSILON && good > bad);
        assert_eq!(halved((0.0, 1.0), |_, _| false, |_| Err("no")), Err("no"));
    }

    #[test]
    fn secants_find_what_halving_finds() {
        let cubic = |x: f64| x * x * x - 0.3;
        let found = crossing((0.0, cubic(0.0)), (3.0, cubic(3.0)), cubic);
        assert!((found - libm::cbrt(0.3)).abs() < 1e-9, "{found}");
        let found = falls_through_one((1.0, 5.0), (9.0, 5.0 / 81.0), 1e-6, |x| Ok::<_, ()>(5.0 / (x * x)));
        assert!(found.is_ok_and(|found| (found - libm::sqrt(5.0)).abs() < 1e-5));
    }
}
