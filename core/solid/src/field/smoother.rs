use nalgebra::Matrix3;

use super::conjugate::{dot, update};
use super::level::Level;
use super::lines::Lines;
use super::number::Number;
use super::slivers::Slivers;
use crate::numeric::map_in_order;

/// Polynomial degree of the smoother.
const DEGREE: usize = 3;

/// Chebyshev polynomial of the fourth kind over blocks of one node, or of a cluster of [`Slivers`] (Lottes 2023, Optimal
/// polynomial smoothers for multigrid V-cycles): needs the largest eigenvalue alone, and the same polynomial before and after
/// keeps a pass symmetric.
///
/// Its steps are never kept: each is the difference of two answers that follow each other, of which the next takes the place
/// of the one before. So a step reads and writes each vector once, in one pass with the product that it needs.
#[derive(Debug, Clone)]
pub(super) struct Smoother {
    /// Inverse of each node's block over the largest eigenvalue: six entries a node, twice as long as a vector.
    inverse: Vec<f32>,
    /// Nodes that are not treated one by one.
    slivers: Slivers,
}

/// What stands where a step writes its answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Before {
    /// What is of no account: this is the first step.
    Any,
    /// The answer before the last step was zero, and is not written down.
    Zero,
    /// The answer before the last step.
    Answer,
}

impl Smoother {
    pub(super) fn new(level: &Level, blocks: &[Matrix3<f64>]) -> Self {
        let slivers = Slivers::new(level, blocks);
        let mut alone = blocks.to_vec();
        slivers.nodes().for_each(|node| alone[node] = Matrix3::zeros());
        let mut smoother = Self { inverse: inverses(&level.lines, &alone), slivers };
        let largest = smoother.largest(level) as f32;
        smoother.inverse.iter_mut().for_each(|entry| *entry /= largest);
        smoother.slivers.scale(1.0 / largest);
        smoother
    }

    /// Largest eigenvalue of the stiffness over its blocks, from a few conjugate gradient steps with a margin: the numbers
    /// of the steps make the matrix of the Lanczos method (Saad 2003, Iterative Methods for Sparse Linear Systems, 6.7.3).
    fn largest(&self, level: &Level) -> f64 {
        const STEPS: usize = 8;
        // The method comes from below; beyond the estimate by this the polynomial still damps.
        const MARGIN: f64 = 1.1;
        let lines = &level.lines;
        // Any start that is neither smooth nor in step with the grid: the low digits of the golden section's multiples.
        let mut x: Vec<f32> = lines.zeros();
        update(lines, &mut x, |n, _| (n as u32).wrapping_mul(2_654_435_769) as f32 / 4_294_967_296.0 - 0.5);
        let (mut rest, mut guess, mut product) = (lines.zeros(), lines.zeros(), lines.zeros());
        level.product(&x, &mut rest);
        self.apply(lines, &rest, 1.0, &mut guess);
        let mut direction = guess.clone();
        let mut size = dot(lines, &rest, &guess);
        // The bound of Gershgorin on the matrix of the steps, which has three numbers in a row.
        let (mut value, mut own, mut across) = (0.0_f64, 0.0, 0.0);
        for _ in 0..STEPS {
            level.product(&direction, &mut product);
            let work = dot(lines, &direction, &product);
            if size <= 0.0 || work <= 0.0 {
                break;
            }
            let length = size / work;
            update(lines, &mut rest, |place, value| value - product[place] * length as f32);
            self.apply(lines, &rest, 1.0, &mut guess);
            let next = dot(lines, &rest, &guess).max(0.0);
            let share = next / size;
            update(lines, &mut direction, |place, value| guess[place] + value * share as f32);
            let beside = share.sqrt() / length;
            value = value.max(own + 1.0 / length + across + beside);
            (own, across) = (share / length, beside);
            size = next;
        }
        if value > 0.0 { value * MARGIN } else { 1.0 }
    }

    /// Sets `to` to `take` times the inverse blocks times `from`.
    fn apply<T: Number<Factor = f32>>(&self, lines: &Lines, from: &[T], take: f32, to: &mut [T]) {
        lines.for_each(to, |line, out| {
            let range = lines.range(line);
            let inverse = &self.inverse[2 * range.start..2 * range.end];
            blockwise(inverse, &from[range], out, |change, _, _| change * take, None);
        });
        let rests = self.slivers.rests_of(from);
        self.slivers.add(&rests, take, to);
    }

    /// Smooths an answer of nothing; `other` is room for one more.
    pub(super) fn smooth_zero<T: Number<Factor = f32>>(
        &self,
        level: &Level,
        load: &[T],
        answer: &mut Vec<T>,
        other: &mut Vec<T>,
    ) {
        self.apply(&level.lines, load, factors(1).1, answer);
        for degree in 2..=DEGREE {
            let before = if degree == 2 { Before::Zero } else { Before::Answer };
            self.step(level, load, answer, other, (degree, before));
            std::mem::swap(answer, other);
        }
    }

    /// Smooths an answer.
    pub(super) fn smooth<T: Number<Factor = f32>>(
        &self,
        level: &Level,
        load: &[T],
        answer: &mut Vec<T>,
        other: &mut Vec<T>,
    ) {
        for degree in 1..=DEGREE {
            let before = if degree == 1 { Before::Any } else { Before::Answer };
            self.step(level, load, answer, other, (degree, before));
            std::mem::swap(answer, other);
        }
    }

    /// Sets `next`, which holds the answer before this one, to the one after it.
    fn step<T: Number<Factor = f32>>(
        &self,
        level: &Level,
        load: &[T],
        answer: &[T],
        next: &mut [T],
        (degree, before): (usize, Before),
    ) {
        let lines = &level.lines;
        let (keep, take) = factors(degree);
        let rests = level.each_line(
            &level.single,
            answer,
            next,
            Vec::new,
            #[inline(always)]
            |line, sums, out, held: &mut Vec<T>| {
                let range = lines.range(line);
                let length = out.len() / 3;
                sums.iter_mut().zip(&load[range.clone()]).for_each(|(sum, &load)| *sum = load - *sum);
                for node in self.slivers.in_line(range.start / 3..range.end / 3) {
                    let t = *node as usize - range.start / 3;
                    held.extend([sums[t], sums[length + t], sums[2 * length + t]]);
                }
                let inverse = &self.inverse[2 * range.start..2 * range.end];
                let now = Some(&answer[range]);
                match before {
                    Before::Any => blockwise(inverse, sums, out, |change, now, _| now + change * take, now),
                    Before::Zero => {
                        blockwise(inverse, sums, out, |change, now, _| now + (now * keep + change * take), now);
                    }
                    Before::Answer => {
                        let step = |change: T, now: T, before: T| now + ((now - before) * keep + change * take);
                        blockwise(inverse, sums, out, step, now);
                    }
                }
            },
        );
        self.slivers.add(&rests.concat(), take, next);
    }
}

/// How much of the last step and of the new change a step of a degree takes.
fn factors(degree: usize) -> (f32, f32) {
    let k = degree as f32;
    ((2.0 * k - 3.0) / (2.0 * k + 1.0), (8.0 * k - 4.0) / (2.0 * k + 1.0))
}

/// Sets `out` to what `made` makes of the inverse blocks of a line's nodes times `from`, of what `now` holds, and of what
/// `out` held.
#[inline(always)]
#[allow(clippy::inline_always)] // Inlined into a product it is compiled for the same vector registers.
fn blockwise<T: Number<Factor = f32>>(
    inverse: &[f32],
    from: &[T],
    out: &mut [T],
    made: impl Fn(T, T, T) -> T,
    now: Option<&[T]>,
) {
    const BLOCK: [[usize; 3]; 3] = [[0, 5, 4], [5, 1, 3], [4, 3, 2]];
    let length = out.len() / 3;
    if length == 0 {
        return;
    }
    let entry = |n: usize| &inverse[n * length..(n + 1) * length];
    let (x, rest) = from.split_at(length);
    let (y, z) = rest.split_at(length);
    let z = &z[..length];
    let now = now.unwrap_or(from);
    for (component, values) in out.chunks_exact_mut(length).enumerate() {
        let [a, b, c] = BLOCK[component].map(entry);
        let now = &now[component * length..][..length];
        for t in 0..length {
            values[t] = made(x[t] * a[t] + y[t] * b[t] + z[t] * c[t], now[t], values[t]);
        }
    }
}

fn inverses(lines: &Lines, blocks: &[Matrix3<f64>]) -> Vec<f32> {
    const ENTRY: [(usize, usize); 6] = [(0, 0), (1, 1), (2, 2), (1, 2), (2, 0), (0, 1)];
    let inverses = map_in_order(lines.lines(), |line| {
        let range = lines.range(line);
        let inverse = |block: &Matrix3<f64>| {
            if block[(0, 0)] > 0.0 { block.try_inverse().unwrap_or_default() } else { Matrix3::zeros() }
        };
        let own: Vec<Matrix3<f64>> = blocks[range.start / 3..range.end / 3].iter().map(inverse).collect();
        ENTRY.iter().flat_map(|&at| own.iter().map(move |block| block[at] as f32)).collect::<Vec<_>>()
    });
    inverses.concat()
}
