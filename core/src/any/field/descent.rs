use nalgebra::{DMatrix, DVector};

/// How much stiffer than the part a pin is held to its force, over the greatest entry: its force is met to a millionth.
pub(super) const STIFF: f64 = 1e6;

/// Steps over the number of unknowns: each takes one band in, and seldom more than a few go in and out again.
const STEPS: usize = 20;

/// A slope below this share of the greatest is none.
const FLAT: f64 = 1e-10;

/// Pressures that are not negative and make `p . H p / 2 + b . p` least, for a symmetric positive definite H: one band at a time
/// is taken in, and any that would pull is let go before it does, so that the sum falls with every step and the search ends
/// (Lawson and Hanson 1974, Solving Least Squares Problems, chapter 23; from memory). `None` where H has no inverse.
pub(super) fn least(matrix: &DMatrix<f64>, linear: &DVector<f64>) -> Option<DVector<f64>> {
    let count = linear.len();
    let flat = FLAT * linear.amax();
    let mut pressures = DVector::zeros(count);
    let mut inside = vec![false; count];
    for _ in 0..STEPS * count.max(1) {
        let slope = matrix * &pressures + linear;
        let outside = (0..count).filter(|&k| !inside[k] && slope[k] < -flat);
        let Some(next) = outside.min_by(|&a, &b| slope[a].total_cmp(&slope[b])) else { return Some(pressures) };
        inside[next] = true;
        loop {
            let taken: Vec<usize> = (0..count).filter(|&k| inside[k]).collect();
            let part = DMatrix::from_fn(taken.len(), taken.len(), |r, c| matrix[(taken[r], taken[c])]);
            let right = DVector::from_fn(taken.len(), |r, _| -linear[taken[r]]);
            let found = part.cholesky()?.solve(&right);
            let pulling = (0..taken.len()).filter(|&r| found[r] <= 0.0);
            let share = |r: usize| pressures[taken[r]] / (pressures[taken[r]] - found[r]);
            let Some(first) = pulling.min_by(|&a, &b| share(a).total_cmp(&share(b))) else {
                taken.iter().zip(found.iter()).for_each(|(&k, &value)| pressures[k] = value);
                break;
            };
            let step = share(first).clamp(0.0, 1.0);
            for (&k, &value) in taken.iter().zip(found.iter()) {
                pressures[k] = (pressures[k] + step * (value - pressures[k])).max(0.0);
            }
            pressures[taken[first]] = 0.0;
            inside[taken[first]] = false;
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two springs and a wall: the one that would pull is let go.
    #[test]
    fn what_would_pull_is_let_go() {
        let matrix = DMatrix::from_row_slice(2, 2, &[2.0, 1.0, 1.0, 2.0]);
        let found = least(&matrix, &DVector::from_row_slice(&[-2.0, 1.0]));
        assert!(found.as_ref().is_some_and(|x| (x[0] - 1.0).abs() < 1e-12 && x[1] == 0.0), "{found:?}");
    }
}
