use nalgebra::Matrix3;

use super::band::BandFactor;
use super::coarsen::{coarser, gather, interpolate};
use super::conjugate::{dot, update};
use super::level::{Into, Level};
use super::lines::Lines;
use super::number::Number;
use super::rigid::RigidMotions;
use super::slivers::Slivers;
use crate::numeric::{map_in_order, map_pieces};

/// Grids from the finest to one small enough to solve at once: one pass over them all is the preconditioner.
#[derive(Debug, Clone)]
pub(super) struct Multigrid {
    levels: Vec<Level>,
    smoothers: Vec<Smoother>,
    coarsest: Coarsest,
}

/// Work, in products, up to which a grid is solved at once: what an iteration or two on twenty thousand cells take.
///
/// Counted in 64 bits: in the 32 of a sandbox the work of a window of the field's wraps round to less.
const SMALL: u64 = 60_000_000;

/// Polynomial degree of the smoother.
const DEGREE: usize = 3;

impl Multigrid {
    pub(super) fn new(finest: Level, motions: &RigidMotions) -> Self {
        let mut levels = vec![finest];
        let mut smoothers = Vec::new();
        let coarsest = loop {
            let level = &levels[levels.len() - 1];
            let blocks = level.blocks();
            let single = level.counts.iter().all(|&count| count == 1);
            if single || least_work(level, &blocks) <= SMALL {
                let order = Order::new(level, &blocks);
                if single || order.work() <= SMALL {
                    break Coarsest::new(level, &order, motions, levels.len() - 1);
                }
            }
            smoothers.push(Smoother::new(level, &blocks));
            let next = coarser(level);
            levels.push(next);
        };
        Self { levels, smoothers, coarsest }
    }

    pub(super) fn finest(&self) -> &Level {
        &self.levels[0]
    }

    /// Grids, the finest among them.
    pub(super) fn depth(&self) -> usize {
        self.levels.len()
    }

    /// Cells with matrices of their own on all grids.
    pub(super) fn own_cells(&self) -> usize {
        self.levels.iter().map(Level::own_cells).sum()
    }

    /// Room for the vectors of a pass.
    pub(super) fn work<T: Number<Factor = f32>>(&self) -> Vec<Work<T>> {
        self.levels.iter().map(|level| Work::new(&level.lines)).collect()
    }

    /// Solves nearly for the load in the finest `work`, and leaves the answer there.
    pub(super) fn pass<T: Number<Factor = f32>>(&self, work: &mut [Work<T>]) {
        self.improve(0, Visit::First, work);
    }

    /// Improves the answer of the grid at `depth`, which a first visit takes to be nothing yet.
    fn improve<T: Number<Factor = f32>>(&self, depth: usize, visit: Visit, work: &mut [Work<T>]) {
        let Some((here, below)) = work.split_first_mut() else { return };
        let level = &self.levels[depth];
        let Some(smoother) = self.smoothers.get(depth) else {
            self.coarsest.solve(&here.load, &mut here.answer);
            return;
        };
        update(&level.lines, &mut here.rest, |place, _| here.load[place]);
        match visit {
            Visit::First => update(&level.lines, &mut here.answer, |_, _| T::default()),
            Visit::Again => level.single(&here.answer, &mut here.rest, Into::Subtract),
        }
        smoother.smooth(level, here);
        level.single(&here.step, &mut here.rest, Into::Subtract);
        gather(&level.lines, &here.rest, &self.levels[depth + 1].lines, &mut below[0].load);
        self.improve(depth + 1, Visit::First, below);
        // The first coarser grid costs as much as an iteration saves; one that is solved at once has no more to give.
        if (1..self.smoothers.len().saturating_sub(1)).contains(&depth) {
            self.improve(depth + 1, Visit::Again, below);
        }
        interpolate(&self.levels[depth + 1].lines, &below[0].answer, &level.lines, &mut here.answer);
        update(&level.lines, &mut here.rest, |place, _| here.load[place]);
        level.single(&here.answer, &mut here.rest, Into::Subtract);
        smoother.smooth(level, here);
    }
}

/// Whether a grid has an answer already. Grids from the second coarser one on are visited twice in a pass (a W-cycle):
/// the coarser a grid, the less it can bend as the part does, and the second visit mends what the first left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Visit {
    First,
    Again,
}

/// Vectors of one grid.
#[derive(Debug, Clone)]
pub(super) struct Work<T> {
    pub(super) load: Vec<T>,
    pub(super) answer: Vec<T>,
    rest: Vec<T>,
    step: Vec<T>,
}

impl<T: Number> Work<T> {
    fn new(lines: &Lines) -> Self {
        Self { load: lines.zeros(), answer: lines.zeros(), rest: lines.zeros(), step: lines.zeros() }
    }
}

/// Chebyshev polynomial of the fourth kind over blocks of one node, or of a cluster of [`Slivers`] (Lottes 2023, Optimal
/// polynomial smoothers for multigrid V-cycles): needs the largest eigenvalue alone, and the same polynomial before and after
/// keeps a pass symmetric.
#[derive(Debug, Clone)]
struct Smoother {
    /// Inverse of each node's block over the largest eigenvalue: six entries a node, twice as long as a vector.
    inverse: Vec<f32>,
    /// Nodes that are not treated one by one.
    slivers: Slivers,
}

impl Smoother {
    fn new(level: &Level, blocks: &[Matrix3<f64>]) -> Self {
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
        level.single(&x, &mut rest, Into::Set);
        self.apply(lines, &rest, &mut guess);
        let mut direction = guess.clone();
        let mut size = dot(lines, &rest, &guess);
        // The bound of Gershgorin on the matrix of the steps, which has three numbers in a row.
        let (mut value, mut own, mut across) = (0.0_f64, 0.0, 0.0);
        for _ in 0..STEPS {
            level.single(&direction, &mut product, Into::Set);
            let work = dot(lines, &direction, &product);
            if size <= 0.0 || work <= 0.0 {
                break;
            }
            let length = size / work;
            update(lines, &mut rest, |place, value| value - product[place] * length as f32);
            self.apply(lines, &rest, &mut guess);
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

    /// Sets `to` to the inverse blocks times `from`.
    fn apply(&self, lines: &Lines, from: &[f32], to: &mut [f32]) {
        lines.for_each(to, |line, out| {
            let range = lines.range(line);
            blockwise(&self.inverse[2 * range.start..2 * range.end], &from[range], 0.0, 1.0, out);
        });
        self.slivers.add(from, 1.0, to);
    }

    /// Improves `answer`, with `rest` what it leaves of the load on entry; on leaving `step` has still to be taken from it.
    fn smooth<T: Number<Factor = f32>>(&self, level: &Level, work: &mut Work<T>) {
        let lines = &level.lines;
        for degree in 1..=DEGREE {
            let k = degree as f32;
            let (keep, take) = ((2.0 * k - 3.0) / (2.0 * k + 1.0), (8.0 * k - 4.0) / (2.0 * k + 1.0));
            let keep = if degree == 1 { 0.0 } else { keep };
            let rest = &work.rest;
            lines.for_each(&mut work.step, |line, out| {
                let range = lines.range(line);
                blockwise(&self.inverse[2 * range.start..2 * range.end], &rest[range], keep, take, out);
            });
            self.slivers.add(&work.rest, take, &mut work.step);
            let step = &work.step;
            map_pieces(&mut work.answer, lines.bounds(), |piece, part| {
                let start = lines.bounds()[piece];
                let length = part.len();
                part.iter_mut().zip(&step[start..start + length]).for_each(|(value, s)| *value += *s);
            });
            if degree < DEGREE {
                level.single(&work.step, &mut work.rest, Into::Subtract);
            }
        }
    }
}

/// `out = keep * out + take * inverse * from` for the nodes of one line.
fn blockwise<T: Number<Factor = f32>>(inverse: &[f32], from: &[T], keep: f32, take: f32, out: &mut [T]) {
    const BLOCK: [[usize; 3]; 3] = [[0, 5, 4], [5, 1, 3], [4, 3, 2]];
    let length = out.len() / 3;
    if length == 0 {
        return;
    }
    let entry = |n: usize| &inverse[n * length..(n + 1) * length];
    let (x, rest) = from.split_at(length);
    let (y, z) = rest.split_at(length);
    for (component, values) in out.chunks_exact_mut(length).enumerate() {
        let [a, b, c] = BLOCK[component].map(entry);
        for t in 0..length {
            values[t] = values[t] * keep + (x[t] * a[t] + y[t] * b[t] + z[t] * c[t]) * take;
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

/// What solving a grid at once takes at least, in products: a node and its neighbours in the next plane across the
/// longest axis have, in [`Order`], at least the nodes of the fullest plane between them.
fn least_work(level: &Level, blocks: &[Matrix3<f64>]) -> u64 {
    let lines = &level.lines;
    let longest = (0..3).max_by_key(|&axis| (level.counts[axis], std::cmp::Reverse(axis))).unwrap_or(0);
    let mut planes = vec![0_usize; lines.counts[longest]];
    for line in 0..lines.lines() {
        let (first, length) = lines.stretch(line);
        let start = lines.range(line).start / 3;
        let at = [0, line % lines.counts[1], line / lines.counts[1]];
        for t in (0..length).filter(|t| blocks[start + t][(0, 0)] > 0.0) {
            planes[if longest == 0 { first + t } else { at[longest] }] += 1;
        }
    }
    let nodes: usize = planes.iter().sum();
    let width = (3 * planes.into_iter().max().unwrap_or(0)).saturating_sub(1);
    work(3 * nodes, width)
}

/// Products that solving so many unknowns at once takes.
fn work(unknowns: usize, width: usize) -> u64 {
    let width = width as u64;
    (unknowns as u64).saturating_mul(width.saturating_mul(width))
}

/// Filled nodes of a grid in an order that keeps neighbours close: across its longest axis first.
struct Order {
    nodes: Vec<[usize; 3]>,
    /// Unknowns between two that share a cell, at most.
    width: usize,
}

impl Order {
    fn new(level: &Level, blocks: &[Matrix3<f64>]) -> Self {
        let lines = &level.lines;
        let mut nodes = Vec::new();
        let mut start = 0;
        for line in 0..lines.lines() {
            let (first, length) = lines.stretch(line);
            let filled = (0..length).filter(|&t| blocks[start + t][(0, 0)] > 0.0);
            nodes.extend(filled.map(|t| [first + t, line % lines.counts[1], line / lines.counts[1]]));
            start += length;
        }
        let mut axes = [0, 1, 2];
        axes.sort_by_key(|&axis| std::cmp::Reverse(level.counts[axis]));
        nodes.sort_by_key(|node| axes.map(|axis| node[axis]));
        let key = |node: &[usize; 3]| axes.map(|axis| node[axis]);
        let mut width = 0;
        for (number, node) in nodes.iter().enumerate() {
            let mut last = *node;
            for coordinate in &mut last {
                *coordinate += 1;
            }
            let end = nodes.partition_point(|other| key(other) <= key(&last));
            width = width.max(3 * (end - number) - 1);
        }
        Self { nodes, width }
    }

    fn work(&self) -> u64 {
        work(3 * self.nodes.len(), self.width)
    }
}

/// The smallest grid, solved at once.
#[derive(Debug, Clone)]
struct Coarsest {
    /// Places in a vector of the unknowns.
    places: Vec<usize>,
    /// For each unknown one over the root of its own stiffness, by which all are scaled: a node that hangs by a sliver of
    /// material would else take its part of what rounding leaves of the free motions, and run away with it.
    over: Vec<f64>,
    /// Free motions at the scaled unknowns, of unit size.
    motions: Vec<Vec<f64>>,
    factor: Option<BandFactor>,
}

impl Coarsest {
    fn new(level: &Level, order: &Order, motions: &RigidMotions, depth: usize) -> Self {
        let lines = &level.lines;
        let place = |node: [usize; 3], component| lines.place(node, component);
        let places: Vec<usize> =
            order.nodes.iter().flat_map(|&node| (0..3).map(move |component| place(node, component))).collect();
        let mut number = vec![usize::MAX; lines.len()];
        places.iter().enumerate().for_each(|(n, &p)| number[p] = n);
        let stride = order.width + 1;
        let mut rows = vec![0.0; places.len() * stride];
        level.for_each_matrix(|cell, entry| {
            let at: [usize; 24] = std::array::from_fn(|dof| number[level.place(cell, dof)]);
            for (p, &row) in at.iter().enumerate() {
                for (q, &column) in at.iter().enumerate().filter(|(_, column)| **column <= row) {
                    rows[row * stride + column + order.width - row] += entry(p, q);
                }
            }
        });
        let count = places.len();
        let over: Vec<f64> = (0..count)
            .map(|n| rows[n * stride + order.width])
            .map(|own| if own > 0.0 { 1.0 / own.sqrt() } else { 1.0 })
            .collect();
        for (n, row) in rows.chunks_exact_mut(stride).enumerate() {
            for (k, entry) in row.iter_mut().enumerate().filter(|(k, _)| k + n >= order.width) {
                *entry *= over[n] * over[n + k - order.width];
            }
        }
        let mut free: Vec<Vec<f64>> = Vec::new();
        for k in 0..motions.count() {
            let mut motion: Vec<f64> =
                order.nodes.iter().flat_map(|&node| <[f64; 3]>::from(motions.at(k, node, depth))).collect();
            motion.iter_mut().zip(&over).for_each(|(v, over)| *v /= over);
            // Twice, so that rounding leaves them square to each other.
            (0..2).for_each(|_| take_out(&free, &mut motion));
            let size = motion.iter().map(|v| v * v).sum::<f64>().sqrt();
            for v in &mut motion {
                *v /= size;
            }
            free.push(motion);
        }
        // Motions nothing resists are held at as many unknowns: a load in balance does not feel that, and what it does to
        // the answer is such a motion again, taken out afterwards.
        for n in holds(&free, count) {
            rows[n * stride + order.width] += 1.0;
        }
        // Single precision may leave the softest motions of a slender part less than nothing; then a little is added.
        let factor = [0.0, 1e-8, 1e-7, 1e-6, 1e-5].into_iter().find_map(|share| {
            let mut rows = rows.clone();
            (0..count).for_each(|n| rows[n * stride + order.width] += share);
            BandFactor::new(order.width, rows)
        });
        Self { places, over, motions: free, factor }
    }

    fn solve<T: Number<Factor = f32>>(&self, load: &[T], answer: &mut [T]) {
        answer.fill(T::default());
        let Some(factor) = &self.factor else { return };
        let mut values: Vec<T::Wide> =
            self.places.iter().zip(&self.over).map(|(&p, over)| load[p].wide() * *over).collect();
        take_out(&self.motions, &mut values);
        factor.solve(&mut values);
        take_out(&self.motions, &mut values);
        for ((&place, value), over) in self.places.iter().zip(&values).zip(&self.over) {
            answer[place] = T::narrow(*value * *over);
        }
    }
}

/// Takes vectors of unit size, square to each other, out of another.
fn take_out<T: Number<Factor = f64>>(vectors: &[Vec<f64>], from: &mut [T]) {
    for vector in vectors {
        let share = vector.iter().zip(from.iter()).fold(T::default(), |sum, (a, b)| sum + *b * *a);
        from.iter_mut().zip(vector).for_each(|(value, v)| *value -= share * *v);
    }
}

/// Unknowns that together hold the given motions best: each time the one at which what is not held yet moves most.
fn holds(motions: &[Vec<f64>], count: usize) -> Vec<usize> {
    let mut rows: Vec<Vec<f64>> = (0..count).map(|n| motions.iter().map(|motion| motion[n]).collect()).collect();
    let size = |row: &Vec<f64>| row.iter().map(|v| v * v).sum::<f64>();
    let mut chosen = Vec::new();
    for _ in motions {
        let Some(best) = (0..count).max_by(|&a, &b| size(&rows[a]).total_cmp(&size(&rows[b]))) else { break };
        let norm = size(&rows[best]).sqrt();
        let held: Vec<f64> = rows[best].iter().map(|v| v / norm).collect();
        for row in &mut rows {
            let share: f64 = row.iter().zip(&held).map(|(a, b)| a * b).sum();
            row.iter_mut().zip(&held).for_each(|(v, h)| *v -= share * h);
        }
        chosen.push(best);
    }
    chosen
}
