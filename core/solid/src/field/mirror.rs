use nalgebra::{Matrix6, Vector6};

use super::level::{CellMakeup, CellRow, Level};
use super::lines::{Fold, Folds};
use super::load::Footprint;
use super::model::FieldModel;
use super::moments::{Moments, WHOLE};
use super::multigrid::Multigrid;
use super::relief::InertiaRelief;
use super::rigid::RigidMotions;
use super::stiffness::PAIRS;
use super::voxels::Content;
use crate::numeric::map_in_order;

/// Share of a whole cell by which a cell and its mirror image may differ: the surface is then off by less than a micrometre
/// in cells of a millimetre.
const ALIKE: f64 = 1e-3;

/// Share of its forces by which a load and its mirror image may differ: what a mesh's facets leave of a round bore.
const BALANCED: f64 = 1e-3;

/// The part on the far side of planes in which it mirrors itself. Loads that do so too, or are the reverse of their mirror
/// image, are solved on it alone: half of the unknowns for each plane, and none of the answer is lost.
#[derive(Debug, Clone)]
pub(super) struct Folded<'a> {
    model: &'a FieldModel,
    folds: Folds,
    /// So many nodes of the whole part stand for one that lies in none of the planes.
    images: f64,
    /// Inertia of the six unit accelerations.
    bodies: Vec<Vec<f64>>,
    pub(super) filled: Vec<bool>,
    pub(super) grids: Multigrid,
    pub(super) motions: RigidMotions,
}

impl<'a> Folded<'a> {
    /// Of a model that mirrors itself across the axes on which it is folded.
    pub(super) fn new(model: &'a FieldModel, relief: &InertiaRelief, folds: Folds) -> Self {
        let mirrored = folds.map(|fold| fold != Fold::None);
        let grid = model.voxels.grid();
        let mut half = *grid;
        for axis in (0..3).filter(|&axis| mirrored[axis]) {
            half.counts[axis] /= 2;
        }
        let [nx, ny, nz] = half.counts;
        let rows = map_in_order(ny * nz, |number| {
            CellRow::new(nx, |i| folded_cell(model, mirrored, [i, number % ny, number / ny]))
        });
        let level = Level::new(half.counts, rows, &model.element.whole, folds);
        let lines = level.lines.clone();
        let mut filled = vec![false; lines.len()];
        level.for_each_matrix(|cell, _| {
            for dof in 0..24 {
                filled[level.place(cell, dof)] = true;
            }
        });
        let motions = RigidMotions::new(&half, &lines, &filled, &resisted(folds));
        let images = mirrored.iter().map(|&folded| if folded { 2.0 } else { 1.0 }).product();
        let grids = Multigrid::new(level, &motions);
        let mut folded = Self { model, folds, images, bodies: Vec::new(), filled, grids, motions };
        let mut bodies = vec![lines.zeros(); 6];
        for (body, whole) in bodies.iter_mut().zip(relief.bodies()) {
            folded.for_each_place(|place, (image, sense)| body[image] += sense * whole[place] / images);
        }
        folded.bodies = bodies;
        folded
    }

    /// The load that acts at a footprint, and on the mass by `accelerations`, as it acts on the folded part.
    pub(super) fn fold(&self, footprint: &Footprint, accelerations: &Vector6<f64>) -> Vec<f64> {
        let mut folded: Vec<f64> = self.grids.finest().lines.zeros();
        for (body, acceleration) in self.bodies.iter().zip(accelerations.iter()).filter(|(_, a)| **a != 0.0) {
            folded.iter_mut().zip(body).for_each(|(force, body)| *force -= acceleration * body);
        }
        for &(place, force) in &footprint.forces {
            let (node, component) = self.model.lines.at(place);
            let (place, sense) = self.image(node, component);
            folded[place] += sense * force / self.images;
        }
        folded
    }

    /// Displacements of the whole part from those of the folded one.
    pub(super) fn unfold(&self, folded: &[f64]) -> Vec<f64> {
        let mut whole = self.model.lines.zeros();
        self.for_each_place(|place, (image, sense)| whole[place] = sense * folded[image]);
        whole
    }

    /// Place in a vector of the folded part for a component of a filled node of the whole one, and its sense there.
    fn image(&self, node: [usize; 3], component: usize) -> (usize, f64) {
        let counts = self.model.voxels.grid().counts;
        let (mut at, mut sense) = (node, 1.0);
        for axis in (0..3).filter(|&axis| self.folds[axis] != Fold::None) {
            let middle = counts[axis] / 2;
            at[axis] = node[axis].abs_diff(middle);
            let even = (self.folds[axis] == Fold::Even) == (component != axis);
            if node[axis] <= middle && !even {
                // What turns its sense in the plane is nothing there.
                sense *= if node[axis] == middle { 0.0 } else { -1.0 };
            }
        }
        (self.grids.finest().lines.place(at, component), sense)
    }

    /// Calls `work` for every component of a filled node of the whole part with its place in a vector and its image.
    fn for_each_place(&self, mut work: impl FnMut(usize, (usize, f64))) {
        let whole = &self.model.lines;
        for line in 0..whole.lines() {
            let (first, length) = whole.stretch(line);
            let start = whole.range(line).start;
            for component in 0..3 {
                for t in (0..length).filter(|t| self.model.filled[start + t]) {
                    let node = [first + t, line % whole.counts[1], line / whole.counts[1]];
                    work(start + component * length + t, self.image(node, component));
                }
            }
        }
    }
}

/// How a load on a model that mirrors itself across these axes does so. What of its own mass balances it does likewise.
pub(super) fn folds(model: &FieldModel, footprint: &Footprint, axes: [bool; 3]) -> Folds {
    let lines = &model.lines;
    let counts = model.voxels.grid().counts;
    let forces = footprint.load(model).forces;
    // What is left of the forces when their mirror image is taken from them, and when it is added.
    let (mut even, mut odd, mut size) = ([0.0; 3], [0.0; 3], 0.0);
    for &(place, force) in &footprint.forces {
        let (node, component) = lines.at(place);
        size += force * force;
        for axis in (0..3).filter(|&axis| axes[axis]) {
            let mut at = node;
            at[axis] = counts[axis] - node[axis];
            let there = if lines.holds(at) { forces[lines.place(at, component)] } else { 0.0 };
            let image = if component == axis { -there } else { there };
            even[axis] += (force - image) * (force - image);
            odd[axis] += (force + image) * (force + image);
        }
    }
    let small = |off: f64| off <= BALANCED * BALANCED * size;
    [0, 1, 2].map(|axis| match axes[axis] {
        true if small(even[axis]) => Fold::Even,
        true if small(odd[axis]) => Fold::Odd,
        _ => Fold::None,
    })
}

/// Axes across whose middle plane a model mirrors itself.
pub(super) fn mirrors(model: &FieldModel) -> [bool; 3] {
    let counts = model.voxels.grid().counts;
    let matrix = model.stiffness.matrix();
    [0, 1, 2].map(|axis| {
        // Under a mirror strains of two axes, of which it is one, change their sense.
        let sense = |p: usize| if (PAIRS[p].0 == axis) == (PAIRS[p].1 == axis) { 1.0 } else { -1.0 };
        let alike = |p: usize, q: usize| sense(p) * sense(q) > 0.0 || matrix[(p, q)].abs() < 1e-9 * matrix.amax();
        let expands = |p: usize| sense(p) > 0.0 || model.stiffness.expansion()[p] == 0.0;
        counts[axis].is_multiple_of(2)
            && (0..36).all(|n| alike(n / 6, n % 6))
            && (0..6).all(expands)
            && cells_alike(model, axis)
    })
}

fn cells_alike(model: &FieldModel, axis: usize) -> bool {
    let [nx, ny, nz] = model.voxels.grid().counts;
    let rows = map_in_order(ny * nz, |row| {
        (0..nx).all(|i| {
            let cell = [i, row % ny, row / ny];
            let mut other = cell;
            other[axis] = model.voxels.grid().counts[axis] - 1 - cell[axis];
            other[axis] <= cell[axis] || alike(model, cell, other, axis)
        })
    });
    rows.into_iter().all(|row| row)
}

fn alike(model: &FieldModel, cell: [usize; 3], other: [usize; 3], axis: usize) -> bool {
    let [a, b] = [cell, other].map(|at| model.voxels.grid().index(at));
    let same = model.voxels.content(a) == model.voxels.content(b) && model.voxels.content(a) == Content::Empty;
    same || {
        let (x, y) = (moments(model, a), moments(model, b));
        let off = |n: usize| (x[n] - sense(n, axis) * y[n]).abs();
        (0..27).all(|n| off(n) <= ALIKE * WHOLE[0])
            && (model.stiffness_share(a) - model.stiffness_share(b)).abs() <= ALIKE
    }
}

fn moments(model: &FieldModel, cell: usize) -> Moments {
    model.voxels.moments(cell).copied().unwrap_or([0.0; 27])
}

/// Sense that a moment has in the mirror image: that of its power of the axis.
fn sense(number: usize, axis: usize) -> f64 {
    let power = number / [1, 3, 9][axis] % 3;
    if power == 1 { -1.0 } else { 1.0 }
}

/// What a cell of the folded part holds: the mean of its images, so that it does not matter which side is folded on which.
fn folded_cell(model: &FieldModel, mirrored: [bool; 3], at: [usize; 3]) -> CellMakeup {
    let counts = model.voxels.grid().counts;
    let mut sum = [0.0; 27];
    let (mut share, mut images, mut whole) = (0.0, 0.0, true);
    for image in (0..8_usize).filter(|image| (0..3).all(|axis| image >> axis & 1 == 0 || mirrored[axis])) {
        let turned = |axis: usize| image >> axis & 1 == 1;
        let cell = [0, 1, 2].map(|axis| match (mirrored[axis], turned(axis)) {
            (false, _) => at[axis],
            (true, false) => counts[axis] / 2 + at[axis],
            (true, true) => counts[axis] / 2 - 1 - at[axis],
        });
        let index = model.voxels.grid().index(cell);
        whole &= model.voxels.content(index) == Content::Whole;
        let own = moments(model, index);
        for (n, (total, value)) in sum.iter_mut().zip(own).enumerate() {
            let sense: f64 = (0..3).filter(|&axis| turned(axis)).map(|axis| sense(n, axis)).product();
            *total += sense * value;
        }
        share += model.stiffness_share(index);
        images += 1.0;
    }
    if whole {
        CellMakeup::Share((share / images) as f32)
    } else if sum[0] > 0.0 {
        let mean = sum.map(|total| total / images);
        CellMakeup::Own(Box::new(model.element.cut(&mean) * (share / images)))
    } else {
        CellMakeup::Empty
    }
}

/// Resistance of the mirrors to the part's free motions: shifts and turns that do not mirror themselves as the load does.
fn resisted(folds: Folds) -> Matrix6<f64> {
    Matrix6::from_diagonal(&Vector6::from_fn(|k, _| {
        let free = folds.iter().enumerate().all(|(axis, fold)| {
            // The mirror image of a shift is its own unless it goes across the plane; a turn's unless its axis lies in it.
            let even = (k < 3) == (k % 3 != axis);
            match fold {
                Fold::None => true,
                Fold::Even => even,
                Fold::Odd => !even,
            }
        });
        f64::from(u8::from(!free))
    }))
}
