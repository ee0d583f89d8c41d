use super::FieldError;
use super::level::Into;
use super::lines::Lines;
use super::multigrid::Multigrid;
use super::rigid::RigidMotions;
use crate::threads::{map_in_order, map_pieces};

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
    /// Conjugate gradients with one multigrid pass as preconditioner, from `displacement` on (Hestenes & Stiefel 1952).
    ///
    /// Products and sums are in double precision, the pass is in single: it only chooses directions. The step is the
    /// flexible one (Notay 2000), as rounding makes the pass a slightly different matrix each time.
    pub(super) fn solve(
        &self,
        load: &[f64],
        displacement: &mut [f64],
        accuracy: &Accuracy,
    ) -> Result<History, FieldError> {
        let level = self.grids.finest();
        let lines = &level.lines;
        let size = dot(lines, load, load).sqrt();
        if size == 0.0 {
            displacement.fill(0.0);
            return Ok(History { residuals: vec![0.0] });
        }
        let mut rest = load.to_vec();
        level.double(displacement, &mut rest, Into::Subtract);
        self.motions.remove(lines, self.filled, &mut rest);
        let mut history = History { residuals: vec![dot(lines, &rest, &rest).sqrt() / size] };
        let mut direction = vec![0.0; lines.len()];
        let mut product = vec![0.0; lines.len()];
        let mut guess = vec![0.0; lines.len()];
        let mut work = self.grids.work();
        let mut before = 0.0;
        // A residual that is no number has to end as an error.
        while history.residual().is_nan() || history.residual() > accuracy.residual {
            if history.iterations() >= accuracy.iterations || !history.residual().is_finite() {
                return Err(FieldError::NotConverged {
                    iterations: history.iterations(),
                    residual: history.residual(),
                    wanted: accuracy.residual,
                });
            }
            self.precondition(&rest, size * history.residual(), &mut work, &mut guess);
            // `product` still is the last direction's: what the new guess shares with it is taken out.
            let shared = if before > 0.0 { -dot(lines, &guess, &product) / before } else { 0.0 };
            update(lines, &mut direction, |place, value| guess[place] + shared * value);
            level.double(&direction, &mut product, Into::Set);
            // Matrices of cut cells are kept in single precision and resist rigid motion by its rounding.
            self.motions.remove(lines, self.filled, &mut product);
            before = dot(lines, &direction, &product);
            if before.is_nan() || before <= 0.0 {
                return Err(FieldError::NotConverged {
                    iterations: history.iterations(),
                    residual: history.residual(),
                    wanted: accuracy.residual,
                });
            }
            let step = dot(lines, &rest, &direction) / before;
            update(lines, displacement, |place, value| value + step * direction[place]);
            update(lines, &mut rest, |place, value| value - step * product[place]);
            history.residuals.push(dot(lines, &rest, &rest).sqrt() / size);
        }
        self.motions.remove(lines, self.filled, displacement);
        Ok(history)
    }

    fn precondition(&self, rest: &[f64], size: f64, work: &mut [super::multigrid::Work], guess: &mut [f64]) {
        let lines = &self.grids.finest().lines;
        let scale = 1.0 / size;
        update(lines, &mut work[0].load, |place, _| (rest[place] * scale) as f32);
        self.grids.pass(work);
        let answer = &work[0].answer;
        update(lines, guess, |place, _| f64::from(answer[place]) * size);
        self.motions.remove(lines, self.filled, guess);
    }
}

fn update<T: Copy + Send>(lines: &Lines, vector: &mut [T], value: impl Fn(usize, T) -> T + Sync + Send) {
    map_pieces(vector, lines.bounds(), |piece, part| {
        let start = lines.bounds()[piece];
        part.iter_mut().enumerate().for_each(|(t, entry)| *entry = value(start + t, *entry));
    });
}

pub(super) fn dot(lines: &Lines, a: &[f64], b: &[f64]) -> f64 {
    let parts = map_in_order(lines.bounds().len() - 1, |piece| {
        let range = lines.bounds()[piece]..lines.bounds()[piece + 1];
        // Eight sums at once, so that they need not wait for each other.
        let mut sums = [0.0; 8];
        for (x, y) in a[range.clone()].chunks(8).zip(b[range].chunks(8)) {
            for (sum, (x, y)) in sums.iter_mut().zip(x.iter().zip(y)) {
                *sum += x * y;
            }
        }
        sums.iter().sum::<f64>()
    });
    parts.iter().sum()
}
