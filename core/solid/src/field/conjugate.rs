use super::error::FieldError;
use super::lines::Lines;
use super::multigrid::{Multigrid, Work};
use super::number::{Many, Number};
use super::rigid::{RigidMotions, total};
use crate::numeric::{map_each, map_in_order, map_pieces, pieces};

/// Fewer loads than this are solved one after the other: together they would take as long as eight.
pub(super) const FEW: usize = 3;

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

/// Vectors of conjugate gradients, and the sizes that go from one iteration to the next; of each load its own.
struct Iterates<S, T> {
    /// What of the load is left.
    rest: Vec<T>,
    /// The last direction and the forces it makes.
    direction: Vec<T>,
    product: Vec<T>,
    /// Work of those on each other; none yet is 0.
    before: T,
    /// The pass takes what is left over such a size, so that it is near one.
    size: T,
    work: Vec<Work<S>>,
}

impl Equations<'_> {
    /// Conjugate gradients with one multigrid pass as preconditioner, from `displacement` on (Hestenes & Stiefel 1952),
    /// for every load that a number of `T` has; one history each.
    ///
    /// Products and sums are in double precision, the pass is in single: it only chooses directions. The step is the
    /// flexible one (Notay 2000), as rounding makes the pass a slightly different matrix each time. Loads solved together
    /// share passes over the matrices and nothing else: each has the steps it would have alone, and stands still once it
    /// is solved. A vector is read and written as seldom as can be: what belongs to one line is done while that is at hand.
    pub(super) fn solve<S, T>(
        &self,
        load: Vec<T>,
        displacement: &mut [T],
        accuracy: &Accuracy,
    ) -> Result<Vec<History>, FieldError>
    where
        S: Number<Factor = f32, Wide = T>,
        T: Number<Factor = f64, Wide = T>,
    {
        let level = self.grids.finest();
        let lines = &level.lines;
        let size = root(dot(lines, &load, &load));
        let over = inverse(size);
        // A load of nothing is solved by nothing.
        let loaded = T::each(|n| f64::from(u8::from(size.of(n) > 0.0)));
        update(lines, displacement, |_, value| value.times(loaded));
        let mut at = Iterates::<S, T> {
            rest: load,
            direction: lines.zeros(),
            product: lines.zeros(),
            before: T::default(),
            size,
            work: self.grids.work::<S>(),
        };
        level.take_from(displacement, &mut at.rest);
        self.motions.remove(lines, self.filled, &mut at.rest);
        at.size = root(dot(lines, &at.rest, &at.rest));
        let mut residual = at.size.times(over);
        let scale = inverse(at.size);
        update(lines, &mut at.work[0].load, |place, _| S::narrow(at.rest[place].times(scale)));
        let mut histories: Vec<History> = (0..T::LOADS).map(|n| History { residuals: vec![residual.of(n)] }).collect();
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
            self.grids.pass(&mut at.work);
            self.turn(&mut at);
            let (along, motions) = self.push(&mut at);
            for (n, history) in histories.iter().enumerate().filter(|(n, _)| open(residual, *n)) {
                if at.before.of(n).is_nan() || at.before.of(n) <= 0.0 {
                    return Err(failed(history));
                }
            }
            let step = T::each(|n| if open(residual, n) { along.of(n) / at.before.of(n) } else { 0.0 });
            let now = root(self.advance(&mut at, step, &motions, displacement)).times(over);
            for (n, history) in histories.iter_mut().enumerate().filter(|(n, _)| open(residual, *n)) {
                history.residuals.push(now.of(n));
            }
            residual = now;
        }
        self.motions.remove(lines, self.filled, displacement);
        Ok(histories)
    }

    /// Displacements under several forces from nothing on, at most [`TOGETHER`] of them, and how they came about.
    pub(super) fn solve_each(
        &self,
        forces: Vec<Vec<f64>>,
        accuracy: &Accuracy,
    ) -> Result<Vec<(Vec<f64>, History)>, FieldError> {
        let lines = &self.grids.finest().lines;
        if forces.len() < FEW {
            let alone = |forces| {
                let mut displacement = lines.zeros();
                let histories = self.solve::<f32, f64>(forces, &mut displacement, accuracy)?;
                Ok(histories.into_iter().map(move |history| (displacement.clone(), history)))
            };
            return Ok(forces.into_iter().map(alone).collect::<Result<Vec<_>, _>>()?.into_iter().flatten().collect());
        }
        let together: Vec<Many<f64>> =
            (0..lines.len()).map(|place| Many::each(|n| forces.get(n).map_or(0.0, |forces| forces[place]))).collect();
        let mut displacement = lines.zeros();
        let histories = self.solve::<Many<f32>, _>(together, &mut displacement, accuracy)?;
        let solved = histories.into_iter().take(forces.len()).enumerate();
        Ok(solved.map(|(n, history)| (displacement.iter().map(|values| values.of(n)).collect(), history)).collect())
    }

    /// The next direction: what the pass chose, less what it shares with the last one.
    fn turn<S, T>(&self, at: &mut Iterates<S, T>)
    where
        S: Number<Factor = f32, Wide = T>,
        T: Number<Factor = f64, Wide = T>,
    {
        let lines = &self.grids.finest().lines;
        let Iterates { direction, product, before, size, work, .. } = at;
        let guess = &work[0].answer;
        let parts = map_in_order(lines.bounds().len() - 1, |piece| {
            let (mut motions, mut shared) = ([T::default(); 6], T::default());
            for line in lines.piece(piece) {
                let range = lines.range(line);
                self.motions.add_products(lines, line, &guess[range.clone()], &mut motions);
                shared += product_of(&guess[range.clone()], &product[range]);
            }
            (motions, shared)
        });
        let shared = parts.iter().fold(T::default(), |sum, part| sum + part.1).times(*size);
        let motions = self.motions.missing(&total(parts.into_iter().map(|part| part.0)));
        let kept = T::each(|n| if before.of(n) > 0.0 { -shared.of(n) / before.of(n) } else { 0.0 });
        lines.for_each(direction, |line, out| {
            let range = lines.range(line);
            let [here, step] = self.motions.along(lines, line, &motions);
            let nodes = guess[range.clone()].iter().zip(&self.filled[range]);
            for_each_node(out.len() / 3, out.iter_mut().zip(nodes), |component, t, (value, (guess, &there))| {
                let mut guess = guess.wide();
                if there {
                    guess += here[component] + step[component] * t;
                }
                *value = guess.times(*size) + value.times(kept);
            });
        });
    }

    /// The forces that the direction makes, and their work on it; returns the direction's work on what is left, and how much of
    /// each free motion the forces lack: matrices of cut cells are kept in single precision and resist it by their rounding.
    fn push<S, T>(&self, at: &mut Iterates<S, T>) -> (T, [T; 6])
    where
        S: Number<Factor = f32, Wide = T>,
        T: Number<Factor = f64, Wide = T>,
    {
        let level = self.grids.finest();
        let Iterates { rest, direction, product, before, .. } = at;
        let (rest, direction) = (&*rest, &*direction);
        let parts = level.each_line(
            &level.double,
            direction,
            product,
            || ([T::default(); 6], T::default(), T::default()),
            #[inline(always)]
            |line, sums, out, (motions, work, along)| {
                let range = level.lines.range(line);
                self.motions.add_products(&level.lines, line, sums, motions);
                *work += product_of(&direction[range.clone()], sums);
                *along += product_of(&direction[range.clone()], &rest[range]);
                out.copy_from_slice(sums);
            },
        );
        *before = parts.iter().fold(T::default(), |sum, part| sum + part.1);
        let along = parts.iter().fold(T::default(), |sum, part| sum + part.2);
        (along, self.motions.missing(&total(parts.into_iter().map(|part| part.0))))
    }

    /// Goes `step` along the direction, whose forces lack so much of each motion; returns the square of what is left then,
    /// which is made ready for the next pass.
    fn advance<S, T>(&self, at: &mut Iterates<S, T>, step: T, motions: &[T; 6], displacement: &mut [T]) -> T
    where
        S: Number<Factor = f32, Wide = T>,
        T: Number<Factor = f64, Wide = T>,
    {
        let lines = &self.grids.finest().lines;
        let bounds = lines.bounds();
        let scale = inverse(at.size);
        let moved = pieces(displacement, bounds).into_iter().zip(pieces(&mut at.work[0].load, bounds));
        let forces = pieces(&mut at.rest, bounds).into_iter().zip(pieces(&mut at.product, bounds));
        let direction = &at.direction;
        let squares = map_each(moved.zip(forces).collect(), |piece, ((moved, next), (rest, product))| {
            let mut square = T::default();
            for line in lines.piece(piece) {
                let range = lines.range(line);
                let within = range.start - bounds[piece]..range.end - bounds[piece];
                let [here, slope] = self.motions.along(lines, line, motions);
                let known = direction[range.clone()].iter().zip(&self.filled[range.clone()]);
                let of_node = moved[within.clone()].iter_mut().zip(&mut next[within.clone()]);
                let of_node = of_node.zip(rest[within.clone()].iter_mut().zip(&mut product[within.clone()]));
                for_each_node(range.len() / 3, of_node.zip(known), |component, t, (of_node, (direction, &there))| {
                    let ((moved, next), (rest, product)) = of_node;
                    if there {
                        *product += here[component] + slope[component] * t;
                    }
                    *moved += direction.times(step);
                    *rest -= product.times(step);
                    *next = S::narrow(rest.times(scale));
                });
                square += product_of(&rest[within.clone()], &rest[within]);
            }
            square
        });
        squares.into_iter().fold(T::default(), |sum, part| sum + part)
    }
}

/// Hands what `values` gives for the three components of a line of `length` nodes to `take`, with component and number of the
/// node.
#[inline(always)]
#[allow(clippy::inline_always)] // Or it is a call for every number.
fn for_each_node<V>(length: usize, mut values: impl Iterator<Item = V>, mut take: impl FnMut(usize, f64, V)) {
    for component in 0..3 {
        for (t, value) in values.by_ref().take(length).enumerate() {
            take(component, t as f64, value);
        }
    }
}

fn root<T: Number<Factor = f64>>(square: T) -> T {
    T::each(|n| square.of(n).sqrt())
}

/// One over each size; 0 of nothing.
fn inverse<T: Number<Factor = f64>>(size: T) -> T {
    T::each(|n| if size.of(n) > 0.0 { 1.0 / size.of(n) } else { 0.0 })
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
        product_of(&a[range.clone()], &b[range])
    });
    parts.into_iter().fold(T::Wide::default(), |sum, part| sum + part)
}

/// Product of two stretches of like length.
#[inline(always)]
#[allow(clippy::inline_always)] // Inlined into a product it is compiled for the same vector registers.
fn product_of<W: Number, A: Number<Wide = W>, B: Number<Wide = W>>(a: &[A], b: &[B]) -> W {
    if A::LOADS > 1 {
        return a.iter().zip(b).fold(W::default(), |sum, (x, y)| sum + x.wide().times(y.wide()));
    }
    // Eight sums at once, so that they need not wait for each other.
    let mut sums = [W::default(); 8];
    for (x, y) in a.chunks(8).zip(b.chunks(8)) {
        for (sum, (x, y)) in sums.iter_mut().zip(x.iter().zip(y)) {
            *sum += x.wide().times(y.wide());
        }
    }
    sums.into_iter().fold(W::default(), |sum, lane| sum + lane)
}
