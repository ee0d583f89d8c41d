use super::error::FieldError;
use super::level::Into;
use super::lines::Lines;
use super::multigrid::{Multigrid, Work};
use super::number::Number;
use super::rigid::RigidMotions;
use crate::numeric::{map_in_order, map_pieces};

/// When a solution is good enough, and when it is given up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Accuracy {
    /// Residual over the load, both as the root of the sum of squares.
    pub residual: f64,
    /// Most iterations.
    pub iterations: usize,
}

impl Default for Accuracy {
    /// A residual of 1e-6, two orders below the error of a fine grid's stresses, within 200 iterations.
    fn default() -> Self {
        Self { residual: 1e-6, iterations: 200 }
    }
}

/// How a solution came about.
#[derive(Debug, Clone, PartialEq)]
pub struct History {
    /// Residual over the load before the first iteration and after each.
    pub residuals: Vec<f64>,
}

impl History {
    /// Iterations done.
    pub fn iterations(&self) -> usize {
        self.residuals.len().saturating_sub(1)
    }

    /// Residual over the load at the end.
    pub fn residual(&self) -> f64 {
        self.residuals.last().copied().unwrap_or(0.0)
    }

    /// Mean factor by which an iteration shrinks the residual.
    pub fn rate(&self) -> f64 {
        let (Some(first), Some(last)) = (self.residuals.first(), self.residuals.last()) else { return 0.0 };
        if self.iterations() == 0 || *first <= 0.0 {
            0.0
        } else {
            libm::pow(last / first, 1.0 / self.iterations() as f64)
        }
    }
}

/// Everything a solution needs besides the load.
pub(super) struct Equations<'a> {
    pub(super) grids: &'a Multigrid,
    pub(super) motions: &'a RigidMotions,
    pub(super) filled: &'a [bool],
}

impl Equations<'_> {
    /// Conjugate gradients with one multigrid pass as preconditioner, from `displacement` on (Hestenes & Stiefel 1952),
    /// for every load that a number of `T` has; one history each.
    ///
    /// Products and sums are in double precision, the pass is in single: it only chooses directions. The step is the
    /// flexible one (Notay 2000), as rounding makes the pass a slightly different matrix each time. Loads solved together
    /// share passes over the matrices and nothing else: each has the steps it would have alone, and stands still once it
    /// is solved.
    pub(super) fn solve<S, T>(
        &self,
        load: &[T],
        displacement: &mut [T],
        accuracy: &Accuracy,
    ) -> Result<Vec<History>, FieldError>
    where
        S: Number<Factor = f32, Wide = T>,
        T: Number<Factor = f64, Wide = T>,
    {
        let level = self.grids.finest();
        let lines = &level.lines;
        let size = root(dot(lines, load, load));
        // A load of nothing is solved by nothing.
        let over = T::each(|n| if size.of(n) > 0.0 { 1.0 / size.of(n) } else { 0.0 });
        let loaded = T::each(|n| f64::from(u8::from(size.of(n) > 0.0)));
        update(lines, displacement, |_, value| value.times(loaded));
        let mut rest = load.to_vec();
        level.double(displacement, &mut rest, Into::Subtract);
        self.motions.remove(lines, self.filled, &mut rest);
        let mut residual = root(dot(lines, &rest, &rest)).times(over);
        let mut histories: Vec<History> = (0..T::LOADS).map(|n| History { residuals: vec![residual.of(n)] }).collect();
        let (mut direction, mut product, mut guess): (Vec<T>, Vec<T>, Vec<T>) =
            (lines.zeros(), lines.zeros(), lines.zeros());
        let mut work = self.grids.work::<S>();
        let mut before = T::default();
        // A residual that is no number has to end as an error.
        let open = |residual: T, n: usize| residual.of(n).is_nan() || residual.of(n) > accuracy.residual;
        while (0..T::LOADS).any(|n| open(residual, n)) {
            let failed = |history: &History| FieldError::NotConverged {
                iterations: history.iterations(),
                residual: history.residual(),
                wanted: accuracy.residual,
            };
            for (n, history) in histories.iter().enumerate().filter(|(n, _)| open(residual, *n)) {
                if history.iterations() >= accuracy.iterations || !residual.of(n).is_finite() {
                    return Err(failed(history));
                }
            }
            self.precondition(&rest, size.times(residual), &mut work, &mut guess);
            // `product` still is the last direction's: what the new guess shares with it is taken out.
            let shared = dot(lines, &guess, &product);
            let shared = T::each(|n| if before.of(n) > 0.0 { -shared.of(n) / before.of(n) } else { 0.0 });
            update(lines, &mut direction, |place, value| guess[place] + value.times(shared));
            level.double(&direction, &mut product, Into::Set);
            // Matrices of cut cells are kept in single precision and resist rigid motion by its rounding.
            self.motions.remove(lines, self.filled, &mut product);
            before = dot(lines, &direction, &product);
            let along = dot(lines, &rest, &direction);
            for (n, history) in histories.iter().enumerate().filter(|(n, _)| open(residual, *n)) {
                if before.of(n).is_nan() || before.of(n) <= 0.0 {
                    return Err(failed(history));
                }
            }
            let step = T::each(|n| if open(residual, n) { along.of(n) / before.of(n) } else { 0.0 });
            update(lines, displacement, |place, value| value + direction[place].times(step));
            update(lines, &mut rest, |place, value| value - product[place].times(step));
            let now = root(dot(lines, &rest, &rest)).times(over);
            for (n, history) in histories.iter_mut().enumerate().filter(|(n, _)| open(residual, *n)) {
                history.residuals.push(now.of(n));
            }
            residual = now;
        }
        self.motions.remove(lines, self.filled, displacement);
        Ok(histories)
    }

    fn precondition<S, T>(&self, rest: &[T], size: T, work: &mut [Work<S>], guess: &mut [T])
    where
        S: Number<Factor = f32, Wide = T>,
        T: Number<Factor = f64>,
    {
        let lines = &self.grids.finest().lines;
        let scale = T::each(|n| if size.of(n) > 0.0 { 1.0 / size.of(n) } else { 0.0 });
        update(lines, &mut work[0].load, |place, _| S::narrow(rest[place].times(scale)));
        self.grids.pass(work);
        let answer = &work[0].answer;
        update(lines, guess, |place, _| answer[place].wide().times(size));
        self.motions.remove(lines, self.filled, guess);
    }
}

fn root<T: Number<Factor = f64>>(square: T) -> T {
    T::each(|n| square.of(n).sqrt())
}

pub(super) fn update<T: Copy + Send>(lines: &Lines, vector: &mut [T], value: impl Fn(usize, T) -> T + Sync + Send) {
    map_pieces(vector, lines.bounds(), |piece, part| {
        let start = lines.bounds()[piece];
        part.iter_mut().enumerate().for_each(|(t, entry)| *entry = value(start + t, *entry));
    });
}

/// Product of two vectors, load by load, summed in double precision.
pub(super) fn dot<T: Number>(lines: &Lines, a: &[T], b: &[T]) -> T::Wide {
    let parts = map_in_order(lines.bounds().len() - 1, |piece| {
        let range = lines.bounds()[piece]..lines.bounds()[piece + 1];
        // Eight sums at once, so that they need not wait for each other.
        let mut sums = [T::Wide::default(); 8];
        for (x, y) in a[range.clone()].chunks(8).zip(b[range].chunks(8)) {
            for (sum, (x, y)) in sums.iter_mut().zip(x.iter().zip(y)) {
                *sum += x.wide().times(y.wide());
            }
        }
        sums.into_iter().fold(T::Wide::default(), |sum, lane| sum + lane)
    });
    parts.into_iter().fold(T::Wide::default(), |sum, part| sum + part)
}
