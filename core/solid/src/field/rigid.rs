use nalgebra::{DMatrix, DVector, Matrix6, Point3, Vector3, Vector6};

use super::grid::Grid;
use super::lines::{Fold, Lines};
use super::number::Number;
use crate::numeric::map_in_order;

/// Motions of the part as a whole that nothing resists: three shifts and three turns, or those of them that supports
/// leave free.
#[derive(Debug, Clone)]
pub(super) struct RigidMotions {
    origin: Vector3<f64>,
    cell: Vector3<f64>,
    /// Lever that makes a turn as large as a shift, m.
    lever: f64,
    /// Each free motion as shifts and turns.
    free: Vec<Vector6<f64>>,
    /// Inverse of the products of the free motions with each other.
    inverse: DMatrix<f64>,
}

impl RigidMotions {
    /// The motions that cost no energy in `resistance` (shifts, then turns times lever).
    ///
    /// `filled` tells for each place of a vector whether a node with material is there.
    pub(super) fn new(grid: &Grid, lines: &Lines, filled: &[bool], resistance: &Matrix6<f64>) -> Self {
        let half = Vector3::from_fn(|axis, _| grid.counts[axis] as f64 * grid.cell[axis] / 2.0);
        let lever = half.norm();
        // Where the part goes on beyond its first plane its middle lies in that.
        let centre = Vector3::from_fn(|axis, _| if lines.folds()[axis] == Fold::None { half[axis] } else { 0.0 });
        let free = if resistance.amax() == 0.0 {
            (0..6).map(|k| Vector6::ith(k, 1.0)).collect()
        } else {
            let parts = resistance.symmetric_eigen();
            let most = parts.eigenvalues.amax();
            // A motion counts as free if supports resist it a million times less than the stiffest.
            (0..6)
                .filter(|&k| parts.eigenvalues[k] < 1e-6 * most)
                .map(|k| parts.eigenvectors.column(k).into())
                .collect()
        };
        let mut motions = Self { origin: -centre, cell: grid.cell, lever, free, inverse: DMatrix::zeros(0, 0) };
        let count = motions.free.len();
        if count > 0 {
            let mut products = DMatrix::zeros(count, count);
            for k in 0..count {
                let mut motion = lines.zeros();
                motions.add(lines, &std::array::from_fn(|m| f64::from(u8::from(m == k))), filled, &mut motion);
                products.set_column(k, &DVector::from_column_slice(&motions.products(lines, &motion)[..count]));
            }
            motions.inverse = products.try_inverse().unwrap_or_else(|| DMatrix::zeros(count, count));
        }
        motions
    }

    /// See the field.
    pub(super) fn lever(&self) -> f64 {
        self.lever
    }

    /// Free motions.
    pub(super) fn count(&self) -> usize {
        self.free.len()
    }

    /// Motion `k` at a node, for nodes `2^level` cells apart.
    pub(super) fn at(&self, k: usize, node: [usize; 3], level: usize) -> Vector3<f64> {
        let step = (1_usize << level) as f64;
        let place = self.origin + Vector3::from_fn(|axis, _| node[axis] as f64 * step * self.cell[axis]);
        let motion = &self.free[k];
        let turn = Vector3::new(motion[3], motion[4], motion[5]) / self.lever;
        Vector3::new(motion[0], motion[1], motion[2]) + turn.cross(&place)
    }

    /// Products of a vector that is zero where no material is with the free motions.
    fn products<T: Number<Factor = f64, Wide = T>>(&self, lines: &Lines, vector: &[T]) -> [T; 6] {
        let parts = map_in_order(lines.bounds().len() - 1, |piece| {
            let mut sum = [T::default(); 6];
            lines.piece(piece).for_each(|line| self.add_products(lines, line, &vector[lines.range(line)], &mut sum));
            sum
        });
        total(parts)
    }

    /// Adds the products of one line's values.
    pub(super) fn add_products<S, T>(&self, lines: &Lines, line: usize, values: &[S], sum: &mut [T; 6])
    where
        S: Number<Wide = T>,
        T: Number<Factor = f64>,
    {
        let (first, length) = lines.stretch(line);
        if length == 0 || self.free.is_empty() {
            return;
        }
        let (j, k) = (line % lines.counts[1], line / lines.counts[1]);
        // A motion is linear along a line: sums of the forces and of the forces times place are enough.
        let mut force = [T::default(); 3];
        let mut moment = [T::default(); 3];
        for component in 0..3 {
            for (t, value) in values[component * length..(component + 1) * length].iter().enumerate() {
                let value = value.wide();
                force[component] += value;
                moment[component] += value * t as f64;
            }
        }
        for (m, total) in sum.iter_mut().enumerate().take(self.free.len()) {
            let here = self.at(m, [first, j, k], 0);
            let step = self.at(m, [first + 1, j, k], 0) - here;
            for component in 0..3 {
                *total += force[component] * here[component] + moment[component] * step[component];
            }
        }
    }

    /// So much of each motion, `factors`, at the nodes of a line: at its first one, and what each node more adds.
    pub(super) fn along<T: Number<Factor = f64>>(&self, lines: &Lines, line: usize, factors: &[T; 6]) -> [[T; 3]; 2] {
        let (first, _) = lines.stretch(line);
        let (j, k) = (line % lines.counts[1], line / lines.counts[1]);
        let mut here = [T::default(); 3];
        let mut step = [T::default(); 3];
        for (m, &factor) in factors.iter().enumerate().take(self.free.len()) {
            let motion = self.at(m, [first, j, k], 0);
            let slope = self.at(m, [first + 1, j, k], 0) - motion;
            for component in 0..3 {
                here[component] += factor * motion[component];
                step[component] += factor * slope[component];
            }
        }
        [here, step]
    }

    /// How much of each motion has to be added to a vector with such products, so that it has none.
    pub(super) fn missing<T: Number<Factor = f64>>(&self, products: &[T; 6]) -> [T; 6] {
        let count = self.free.len();
        let mut factors = [T::default(); 6];
        for (m, factor) in factors.iter_mut().enumerate().take(count) {
            for (n, product) in products.iter().enumerate().take(count) {
                *factor -= *product * self.inverse[(m, n)];
            }
        }
        factors
    }

    fn add<T: Number<Factor = f64>>(&self, lines: &Lines, factors: &[T; 6], filled: &[bool], vector: &mut [T]) {
        lines.for_each(vector, |line, out| {
            let length = out.len() / 3;
            let filled = &filled[lines.range(line)];
            let [here, step] = self.along(lines, line, factors);
            for component in 0..3 {
                let range = component * length..(component + 1) * length;
                for (t, (value, &there)) in out[range.clone()].iter_mut().zip(&filled[range]).enumerate() {
                    if there {
                        *value += here[component] + step[component] * t as f64;
                    }
                }
            }
        });
    }

    /// Takes the free motions out of a vector.
    pub(super) fn remove<T: Number<Factor = f64, Wide = T>>(&self, lines: &Lines, filled: &[bool], vector: &mut [T]) {
        if !self.free.is_empty() {
            let factors = self.missing(&self.products(lines, vector));
            self.add(lines, &factors, filled, vector);
        }
    }

    /// The box's lowest corner to a point of the grid's frame.
    pub(super) fn place(&self, grid: &Grid, point: &Point3<f64>) -> Vector3<f64> {
        point - grid.origin + self.origin
    }
}

/// Sum of the products of all pieces.
pub(super) fn total<T: Number>(parts: impl IntoIterator<Item = [T; 6]>) -> [T; 6] {
    parts.into_iter().fold([T::default(); 6], |mut sum, part| {
        sum.iter_mut().zip(part).for_each(|(total, added)| *total += added);
        sum
    })
}
