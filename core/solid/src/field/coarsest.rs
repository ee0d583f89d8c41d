use nalgebra::Matrix3;

use super::band::BandFactor;
use super::level::Level;
use super::number::Number;
use super::rigid::RigidMotions;
use crate::numeric::sort_few_by_key;

/// What solving a grid at once takes at least, in products: a node and its neighbours in the next plane across the
/// longest axis have, in [`Order`], at least the nodes of the fullest plane between them.
pub(super) fn least_work(level: &Level, blocks: &[Matrix3<f64>]) -> u64 {
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
pub(super) struct Order {
    nodes: Vec<[usize; 3]>,
    /// Unknowns between two that share a cell, at most.
    width: usize,
}

impl Order {
    pub(super) fn new(level: &Level, blocks: &[Matrix3<f64>]) -> Self {
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
        sort_few_by_key(&mut axes, |&axis| std::cmp::Reverse(level.counts[axis]));
        sort_few_by_key(&mut nodes, |node| axes.map(|axis| node[axis]));
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

    pub(super) fn work(&self) -> u64 {
        work(3 * self.nodes.len(), self.width)
    }
}

/// The smallest grid, solved at once.
#[derive(Debug, Clone)]
pub(super) struct Coarsest {
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
    pub(super) fn new(level: &Level, order: &Order, motions: &RigidMotions, depth: usize) -> Self {
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
            let held: [bool; 24] = std::array::from_fn(|dof| {
                let corner = dof / 3;
                lines.held([0, 1, 2].map(|axis| cell[axis] + (corner >> axis & 1)))[dof % 3]
            });
            for (p, &row) in at.iter().enumerate() {
                for (q, &column) in at.iter().enumerate().filter(|(_, column)| **column <= row) {
                    if row == column || !(held[p] || held[q]) {
                        rows[row * stride + column + order.width - row] += entry(p, q);
                    }
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

    pub(super) fn solve<T: Number<Factor = f32>>(&self, load: &[T], answer: &mut [T]) {
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
