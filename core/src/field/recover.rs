use nalgebra::{Matrix3, Point3, SMatrix, SVector, Vector3, Vector6};

use super::element::strain;
use super::held::Solution;
use super::load::Load;
use super::model::FieldModel;
use super::stiffness::PAIRS;
use crate::threads::map_in_order;

/// Strains in the middle of the material of every cell, and the stresses at the surface that follow from them.
#[derive(Debug, Clone)]
pub struct Strains<'a> {
    model: &'a FieldModel,
    /// Number of each cell of the box among the filled ones.
    number: Vec<u32>,
    samples: Vec<Sample>,
}

#[derive(Debug, Clone, Copy)]
struct Sample {
    /// Middle of the cell's material in units of cells from the grid's corner.
    at: Vector3<f64>,
    /// Strain that makes stress.
    strain: Vector6<f64>,
    /// Filled share times stiffness share.
    weight: f64,
}

const NONE: u32 = u32::MAX;

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

impl<'a> Strains<'a> {
    pub(super) fn new(model: &'a FieldModel, solution: &Solution, load: &Load) -> Self {
        let mut number = vec![NONE; model.voxels.grid().len()];
        let mut samples = Vec::with_capacity(model.voxels.filled());
        model.for_each_cell(|cell, index, moments| {
            let local = Vector3::new(moments[1], moments[3], moments[9]) / moments[0];
            let corners = model.corners(cell, &solution.displacement);
            let mut found = strain(&corners, &local, &model.voxels.grid().cell);
            if let Some(free) = &load.free_strain {
                found -= free[samples.len()];
            }
            number[index] = samples.len() as u32;
            samples.push(Sample {
                at: Vector3::from_fn(|axis, _| cell[axis] as f64 + 0.5 + local[axis] / 2.0),
                strain: found,
                weight: moments[0] / 8.0 * model.stiffness_share(index),
            });
        });
        Self { model, number, samples }
    }

    /// Stress at a point of the surface with the outward unit `normal`, Pa: xx, yy, zz, yz, zx, xy.
    ///
    /// Strains of the cells round it are fitted by a polynomial; where the force on the surface is known, the strains in
    /// the surface are kept and the others follow from that force.
    pub fn stress_at(&self, point: &Point3<f64>, normal: &Vector3<f64>, force: SurfaceForce) -> Option<Vector6<f64>> {
        let strain = self.strain_at(point, normal)?;
        let stress = self.model.element.stress(&strain);
        match force {
            SurfaceForce::Unknown => Some(stress),
            SurfaceForce::Known(traction) => Some(self.with_traction(&stress, normal, &traction)),
        }
    }

    /// Stresses in the middle of facets.
    pub fn stresses(
        &self,
        facets: &[usize],
        force: impl Fn(usize) -> SurfaceForce + Sync + Send,
    ) -> Vec<Option<Vector6<f64>>> {
        map_in_order(facets.len(), |n| {
            let facet = facets[n];
            let normal = self.model.mesh.area_vector(facet).try_normalize(0.0)?;
            self.stress_at(&self.model.mesh.middle(facet), &normal, force(facet))
        })
    }

    /// Stress in the middle of the filled cell at `cell`, as it is.
    pub fn in_cell(&self, cell: [usize; 3]) -> Option<Vector6<f64>> {
        let index = self.model.voxels.grid().index(cell);
        let number = *self.number.get(index)?;
        let sample = self.samples.get(number as usize)?;
        Some(self.model.element.stress(&sample.strain) * self.model.stiffness_share(index))
    }

    fn strain_at(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> Option<Vector6<f64>> {
        let grid = self.model.voxels.grid();
        let home = self.model.voxels.cell_near(point, &-normal)?;
        let at = grid.in_cells(point);
        let near = self.connected(home, &at);
        let mut square = SMatrix::<f64, TERMS, TERMS>::zeros();
        let mut right = SMatrix::<f64, TERMS, 6>::zeros();
        let mut whole = 0.0;
        for sample in near {
            let away = sample.at - at;
            let distance = away.norm_squared() / (REACH * REACH);
            if distance >= 1.0 {
                continue;
            }
            // The strain of a cell with little material is its least certain one.
            let weight = sample.weight * sample.weight * sample.weight * (1.0 - distance) * (1.0 - distance);
            let terms = polynomial(&(away / REACH));
            square.ger(weight, &terms, &terms, 1.0);
            right.ger(weight, &terms, &sample.strain, 1.0);
            whole += weight;
        }
        if whole <= 0.0 {
            return None;
        }
        // Where too few cells stand in a direction to tell a bend, as across a thin wall, the bend is held at zero.
        for term in 1..TERMS {
            square[(term, term)] += if term < 4 { 1e-6 } else { 1e-4 } * whole;
        }
        let solved = square.cholesky()?.solve(&right);
        Some(solved.row(0).transpose())
    }

    /// Samples near a point whose cells are joined to its own face to face.
    fn connected(&self, home: [usize; 3], at: &Vector3<f64>) -> Vec<&Sample> {
        const SIDE: usize = 7;
        const HALF: i64 = 3;
        let counts = self.model.voxels.grid().counts;
        let mut seen = [false; SIDE * SIDE * SIDE];
        let mut list = Vec::with_capacity(64);
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
            let Some(sample) = self.samples.get(number as usize) else { continue };
            if (sample.at - at).norm() > REACH + 1.0 {
                continue;
            }
            list.push(sample);
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

    /// The stress with the strains in the surface of `stress` and the force `traction` on it.
    fn with_traction(&self, stress: &Vector6<f64>, normal: &Vector3<f64>, traction: &Vector3<f64>) -> Vector6<f64> {
        let missing = traction - tensor(stress) * normal;
        // Strains out of the surface are those of a displacement slope `s` along the normal; each component of it makes
        // a traction, and the three together the one that is missing.
        let strain_of = |s: &Vector3<f64>| {
            Vector6::from_fn(|p, _| {
                let (a, b) = PAIRS[p];
                if a == b { s[a] * normal[a] } else { s[a] * normal[b] + s[b] * normal[a] }
            })
        };
        let columns: [Vector3<f64>; 3] = std::array::from_fn(|axis| {
            tensor(&self.model.element.stress(&strain_of(&Vector3::ith(axis, 1.0)))) * normal
        });
        let Some(inverse) = Matrix3::from_columns(&columns).try_inverse() else { return *stress };
        stress + self.model.element.stress(&strain_of(&(inverse * missing)))
    }
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
