use std::sync::Arc;

use nalgebra::{Matrix3, Point3, SMatrix, SVector, Vector3, Vector6};

use super::element::{Element, strain};
use super::held::Solution;
use super::load::Load;
use super::model::FieldModel;
use super::number::{Many, Number, TOGETHER};
use super::stiffness::PAIRS;
use crate::numeric::{map_blocks, map_in_order};

/// Strains in the middle of the material of every cell, and the stresses at the surface that follow from them.
#[derive(Debug, Clone)]
pub struct Strains<'a> {
    samples: Arc<Samples<'a>>,
    /// What changes evenly from cell to cell, in the order of the samples: strain that makes stress, or where warmth softens
    /// the part strain and traction.
    even: Vec<Vector6<f64>>,
}

/// Where strains are known: the middle of the material of every filled cell.
#[derive(Debug, Clone)]
pub(super) struct Samples<'a> {
    pub(super) model: &'a FieldModel,
    /// Number of each cell of the box among the filled ones.
    number: Vec<u32>,
    list: Vec<GaugeCell>,
}

#[derive(Debug, Clone, Copy)]
struct GaugeCell {
    cell: [u32; 3],
    /// Middle of the cell's material, from -1 to 1 across the cell.
    local: Vector3<f64>,
    /// Filled share times the stiffness that infill leaves.
    weight: f64,
}

/// A solution, and for every filled cell the strain that comes without stress.
pub(super) type Solved<'a> = (&'a Solution, Option<&'a [Vector6<f64>]>);

const NONE: u32 = u32::MAX;

/// Cells whose strains are worked out together.
const BLOCK: usize = 4096;

/// What is known of the force on the surface where a stress is wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SurfaceForce {
    /// Nothing, as under a pin.
    Unknown,
    /// This traction, Pa; zero for a free surface.
    Known(Vector3<f64>),
}

/// Distance in cells within which cells take part in a fit.
const REACH: f64 = 2.6;

/// Terms of a quadratic polynomial in space.
const TERMS: usize = 10;

impl GaugeCell {
    /// The middle in units of cells from the grid's corner.
    fn at(&self) -> Vector3<f64> {
        Vector3::from_fn(|axis, _| f64::from(self.cell[axis]) + 0.5 + self.local[axis] / 2.0)
    }
}

impl<'a> Samples<'a> {
    pub(super) fn new(model: &'a FieldModel) -> Self {
        let mut number = vec![NONE; model.voxels.grid().len()];
        let mut list = Vec::with_capacity(model.voxels.filled());
        model.for_each_cell(|cell, index, moments| {
            number[index] = list.len() as u32;
            list.push(GaugeCell {
                cell: cell.map(|c| c as u32),
                local: Vector3::new(moments[1], moments[3], moments[9]) / moments[0],
                weight: moments[0] / 8.0 * model.solidity(index),
            });
        });
        Self { model, number, list }
    }

    /// What of a solution changes evenly, at all of them: strains less those that come without stress, or with softening
    /// strains and tractions.
    pub(super) fn even(&self, solution: &Solution, load: &Load) -> Vec<Vector6<f64>> {
        map_blocks(self.list.len(), BLOCK, |range| {
            let even = range.map(|n| self.even_at(n, &self.places(n), (solution, load.free_strain.as_deref())));
            even.collect::<Vec<_>>()
        })
        .concat()
    }

    /// The same of at most [`TOGETHER`] solutions side by side.
    pub(super) fn even_each(&self, solved: &[Solved<'_>]) -> Vec<[Many<f32>; 6]> {
        map_blocks(self.list.len(), BLOCK, |range| {
            let even = range.map(|n| {
                let places = self.places(n);
                let mut each = [Vector6::zeros(); TOGETHER];
                for (even, &solved) in each.iter_mut().zip(solved) {
                    *even = self.even_at(n, &places, solved);
                }
                std::array::from_fn(|component| Many::each(|k| each[k][component] as f32))
            });
            even.collect::<Vec<_>>()
        })
        .concat()
    }

    /// Places in a vector of the corners of a sample's cell.
    fn places(&self, number: usize) -> [usize; 24] {
        let cell = self.list[number].cell.map(|c| c as usize);
        std::array::from_fn(|dof| self.model.place(cell, dof))
    }

    fn even_at(&self, number: usize, places: &[usize; 24], (solution, free): Solved<'_>) -> Vector6<f64> {
        let GaugeCell { cell, local, .. } = &self.list[number];
        let grid = self.model.voxels.grid();
        let corners = SVector::from_fn(|dof, _| solution.displacement[places[dof]]);
        let whole = strain(&corners, local, &grid.cell);
        let strain = free.map_or(whole, |free| whole - free[number]);
        match &self.model.softened {
            // A cell has one stiffness, that of its middle.
            Some(soft) => soft.even(&strain, grid.middle_x(cell[0] as usize)),
            None => strain,
        }
    }

    /// The strain at a point of the surface with the outward unit `normal` as a sum over samples: their numbers and
    /// factors. `None` where no material is near.
    pub(super) fn weights(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> Option<Vec<(u32, f64)>> {
        let grid = self.model.voxels.grid();
        let home = self.model.voxels.cell_near(point, &-normal)?;
        let at = grid.in_cells(point);
        let mut terms = Vec::with_capacity(96);
        let mut square = SMatrix::<f64, TERMS, TERMS>::zeros();
        let mut whole = 0.0;
        for number in self.connected(home, &at) {
            let sample = &self.list[number as usize];
            let away = sample.at() - at;
            let distance = away.norm_squared() / (REACH * REACH);
            if distance >= 1.0 {
                continue;
            }
            // The strain of a cell with little material is its least certain one.
            let weight = sample.weight * sample.weight * sample.weight * (1.0 - distance) * (1.0 - distance);
            let here = polynomial(&(away / REACH));
            square.syger(weight, &here, &here, 1.0);
            terms.push((number, here * weight));
            whole += weight;
        }
        if whole <= 0.0 {
            return None;
        }
        // Where too few cells stand in a direction to tell a bend, as across a thin wall, the bend is held at zero.
        for term in 1..TERMS {
            square[(term, term)] += if term < 4 { 1e-6 } else { 1e-4 } * whole;
        }
        // The fit at the point itself is the first coefficient: the first row of the inverse times the right side.
        let first = square.cholesky()?.solve(&SVector::<f64, TERMS>::ith(0, 1.0));
        Some(terms.into_iter().map(|(number, term)| (number, first.dot(&term))).collect())
    }

    /// Samples near a point whose cells are joined to its own face to face.
    fn connected(&self, home: [usize; 3], at: &Vector3<f64>) -> Vec<u32> {
        const SIDE: usize = 7;
        const HALF: i64 = 3;
        let counts = self.model.voxels.grid().counts;
        let mut seen = [false; SIDE * SIDE * SIDE];
        let mut list = Vec::with_capacity(128);
        let mut stack = vec![[0_i64; 3]];
        while let Some(step) = stack.pop() {
            let slot = step.iter().rev().fold(0, |sum, s| sum * SIDE + (s + HALF) as usize);
            if std::mem::replace(&mut seen[slot], true) {
                continue;
            }
            let cell = [0, 1, 2].map(|axis| home[axis] as i64 + step[axis]);
            if (0..3).any(|axis| cell[axis] < 0 || cell[axis] >= counts[axis] as i64) {
                continue;
            }
            let number = self.number[self.model.voxels.grid().index(cell.map(|c| c as usize))];
            let Some(sample) = self.list.get(number as usize) else { continue };
            if (sample.at() - at).norm() > REACH + 1.0 {
                continue;
            }
            list.push(number);
            for axis in 0..3 {
                for way in [-1, 1] {
                    let mut next = step;
                    next[axis] += way;
                    if next[axis].abs() <= HALF {
                        stack.push(next);
                    }
                }
            }
        }
        list
    }
}

impl<'a> Strains<'a> {
    pub(super) fn new(model: &'a FieldModel, solution: &Solution, load: &Load) -> Self {
        let samples = Samples::new(model);
        let even = samples.even(solution, load);
        Self { samples: samples.into(), even }
    }

    /// Stress at a point of the surface with the outward unit `normal`, Pa: xx, yy, zz, yz, zx, xy.
    ///
    /// Strains of the cells round it are fitted by a polynomial; where the force on the surface is known, the strains in
    /// the surface are kept and the others follow from that force.
    pub fn stress_at(&self, point: &Point3<f64>, normal: &Vector3<f64>, force: SurfaceForce) -> Option<Vector6<f64>> {
        let weights = self.samples.weights(point, normal)?;
        let even = weights.iter().map(|&(n, factor)| self.even[n as usize] * factor).sum::<Vector6<f64>>();
        let strain = self.samples.model.strain_of(&even, point);
        let element = &self.samples.model.element;
        // Warm material stresses less for the same strain.
        let share = self.samples.model.warm_share(point);
        let stress = element.stress(&strain);
        let stress = match force {
            SurfaceForce::Unknown => stress,
            SurfaceForce::Known(traction) => Free::new(element, normal)
                .map_or(stress, |free| free.with_traction(element, &stress, &(traction / share))),
        };
        Some(stress * share)
    }

    /// Stresses in the middle of facets.
    pub fn stresses(
        &self,
        facets: &[usize],
        force: impl Fn(usize) -> SurfaceForce + Sync + Send,
    ) -> Vec<Option<Vector6<f64>>> {
        let mesh = &self.samples.model.mesh;
        map_in_order(facets.len(), |n| {
            let facet = facets[n];
            let normal = mesh.area_vector(facet).try_normalize(0.0)?;
            self.stress_at(&mesh.middle(facet), &normal, force(facet))
        })
    }

    /// Stress in the middle of the filled cell at `cell`, as it is.
    pub fn in_cell(&self, cell: [usize; 3]) -> Option<Vector6<f64>> {
        let Samples { model, number, .. } = &*self.samples;
        let index = model.voxels.grid().index(cell);
        let even = self.even.get(*number.get(index)? as usize)?;
        let x = model.voxels.grid().middle_x(cell[0]);
        let strain = model.softened.as_ref().map_or(*even, |soft| soft.strain(even, x));
        Some(model.element.stress(&strain) * model.stiffness_share(index))
    }
}

/// A surface of which the force on it is known.
#[derive(Debug, Clone, Copy)]
pub(super) struct Free {
    normal: Vector3<f64>,
    /// From a traction to the displacement slopes along the normal that make it.
    inverse: Matrix3<f64>,
}

impl Free {
    pub(super) fn new(element: &Element, normal: &Vector3<f64>) -> Option<Self> {
        // Strains out of the surface are those of a displacement slope along the normal; each component of it makes a
        // traction.
        let columns: [Vector3<f64>; 3] = std::array::from_fn(|axis| {
            tensor(&element.stress(&slope_strain(normal, &Vector3::ith(axis, 1.0)))) * normal
        });
        Some(Self { normal: *normal, inverse: Matrix3::from_columns(&columns).try_inverse()? })
    }

    /// The stress with the strains in the surface of `stress` and the force `traction` on it.
    pub(super) fn with_traction(
        &self,
        element: &Element,
        stress: &Vector6<f64>,
        traction: &Vector3<f64>,
    ) -> Vector6<f64> {
        let missing = traction - tensor(stress) * self.normal;
        stress + element.stress(&slope_strain(&self.normal, &(self.inverse * missing)))
    }
}

/// Strain of a displacement slope `slope` along `normal`.
fn slope_strain(normal: &Vector3<f64>, slope: &Vector3<f64>) -> Vector6<f64> {
    Vector6::from_fn(|p, _| {
        let (a, b) = PAIRS[p];
        if a == b { slope[a] * normal[a] } else { slope[a] * normal[b] + slope[b] * normal[a] }
    })
}

/// A stress as a matrix.
pub fn tensor(stress: &Vector6<f64>) -> Matrix3<f64> {
    let [xx, yy, zz, yz, zx, xy] = (*stress).into();
    Matrix3::new(xx, xy, zx, xy, yy, yz, zx, yz, zz)
}

fn polynomial(at: &Vector3<f64>) -> SVector<f64, TERMS> {
    let (x, y, z) = (at.x, at.y, at.z);
    SVector::from([1.0, x, y, z, x * x, y * y, z * z, y * z, z * x, x * y])
}
