use nalgebra::{Matrix6, SMatrix, SVector, Vector3, Vector6};

use super::moments::{Moments, WANTED, WHOLE};

/// A matrix of one cell; corner `x + 2 y + 4 z`, three components a corner.
pub(super) type CellMatrix = SMatrix<f64, 24, 24>;

/// Stiffness left to the empty part of a cut cell, over that of the material: enough that a corner with a sliver of
/// material beside it still has a stiffness in single precision, too little to be seen in a stress.
const EMPTY_SHARE: f64 = 1e-5;

/// Side of corner `corner` along each axis, -1 or 1.
fn side(corner: usize, axis: usize) -> f64 {
    if corner >> axis & 1 == 1 { 1.0 } else { -1.0 }
}

/// Values of the eight trilinear functions at a point of the cell, coordinates -1 to 1.
pub(super) fn shape(at: &Vector3<f64>) -> [f64; 8] {
    std::array::from_fn(|c| (0..3).map(|axis| 1.0 + side(c, axis) * at[axis]).product::<f64>() / 8.0)
}

/// Derivatives of the eight functions along the axes, 1/m.
fn slopes(at: &Vector3<f64>, cell: &Vector3<f64>) -> [Vector3<f64>; 8] {
    std::array::from_fn(|c| {
        Vector3::from_fn(|axis, _| {
            let others: f64 = (0..3).filter(|&a| a != axis).map(|a| 1.0 + side(c, a) * at[a]).product();
            side(c, axis) * others / (4.0 * cell[axis])
        })
    })
}

/// Strain from a displacement with slope `slope` in component `component`.
fn strain_of(slope: &Vector3<f64>, component: usize) -> Vector6<f64> {
    let mut strain = Vector6::zeros();
    strain[component] = slope[component];
    // yz, zx, xy: each takes the slope of one component along the other's axis.
    let (next, last) = ((component + 1) % 3, (component + 2) % 3);
    strain[3 + last] = slope[next];
    strain[3 + next] = slope[last];
    strain
}

/// Strain at a point of the cell from the displacements of its corners.
pub(super) fn strain(displacement: &SVector<f64, 24>, at: &Vector3<f64>, cell: &Vector3<f64>) -> Vector6<f64> {
    // Slope of each component along each axis first: strains are sums of those.
    let mut slope = [[0.0; 3]; 3];
    for (corner, here) in slopes(at, cell).iter().enumerate() {
        for (component, along) in slope.iter_mut().enumerate() {
            let value = displacement[3 * corner + component];
            for axis in 0..3 {
                along[axis] += value * here[axis];
            }
        }
    }
    let [u, v, w] = slope;
    Vector6::new(u[0], v[1], w[2], v[2] + w[1], w[0] + u[2], u[1] + v[0])
}

/// Stiffness of cells of one size and material.
#[derive(Debug, Clone)]
pub(super) struct Element {
    cell: Vector3<f64>,
    material: Matrix6<f64>,
    /// Stiffness from each moment, in the order of `WANTED`.
    by_moment: Vec<CellMatrix>,
    /// A whole cell, with bending modes inside it.
    pub(super) whole: CellMatrix,
    /// A whole cell of trilinear functions alone.
    plain: CellMatrix,
    /// Energy of each pair of displacement slopes, number `3 axis + component`.
    pairs: SMatrix<f64, 9, 9>,
}

impl Element {
    pub(super) fn new(cell: &Vector3<f64>, material: &Matrix6<f64>) -> Self {
        let by_moment = by_moment(cell, material);
        let plain = WANTED
            .iter()
            .zip(&by_moment)
            .fold(CellMatrix::zeros(), |sum, ((number, _), matrix)| sum + matrix * WHOLE[*number]);
        let slope = |n: usize| strain_of(&Vector3::ith(n / 3, 1.0), n % 3);
        let pairs = SMatrix::from_fn(|p, q| slope(p).dot(&(material * slope(q))));
        Self { cell: *cell, material: *material, whole: with_bending(cell, material), plain, pairs, by_moment }
    }

    /// Stiffness of a cell filled in part, integrated exactly over the part.
    pub(super) fn cut(&self, moments: &Moments) -> CellMatrix {
        let mut sum = self.plain * EMPTY_SHARE;
        for ((number, _), matrix) in WANTED.iter().zip(&self.by_moment) {
            let factor = moments[*number] * (1.0 - EMPTY_SHARE);
            sum.zip_apply(matrix, |a, b| *a += factor * b);
        }
        self.relax(moments, &mut sum);
        (sum + sum.transpose()) / 2.0
    }

    /// Lets a cut cell bend within itself, as a whole one can.
    ///
    /// The slopes of the modes are counted from the middle of the material, so that an even stress does no work on them
    /// and the patch test still holds.
    fn relax(&self, moments: &Moments, sum: &mut CellMatrix) {
        const STEP: [usize; 3] = [1, 3, 9];
        let volume = self.cell.product() / 8.0;
        let middle = STEP.map(|step| moments[step] / moments[0]);
        let factor: [f64; 3] = std::array::from_fn(|axis| -4.0 / self.cell[axis]);
        let mut inner = SMatrix::<f64, 9, 9>::zeros();
        for m in 0..3 {
            for n in 0..3 {
                let product = moments[STEP[m] + STEP[n]] - middle[m] * moments[STEP[n]];
                let whole = if m == n { WHOLE[2] * EMPTY_SHARE } else { 0.0 };
                let integral = (product + whole) * factor[m] * factor[n] * volume;
                for i in 0..3 {
                    for j in 0..3 {
                        inner[(3 * m + i, 3 * n + j)] = self.pairs[(3 * m + i, 3 * n + j)] * integral;
                    }
                }
            }
        }
        let mut mixed = SMatrix::<f64, 9, 24>::zeros();
        for (corner, axis) in corners_and_axes() {
            let slope = slope_polynomial(corner, axis, &self.cell);
            for m in 0..3 {
                let integral: f64 = slope
                    .iter()
                    .map(|&(number, f)| f * (moments[number + STEP[m]] - middle[m] * moments[number]))
                    .sum::<f64>()
                    * factor[m]
                    * volume;
                for i in 0..3 {
                    for j in 0..3 {
                        mixed[(3 * m + j, 3 * corner + i)] += self.pairs[(3 * axis + i, 3 * m + j)] * integral;
                    }
                }
            }
        }
        if let Some(factors) = inner.cholesky() {
            let half = factors.l_dirty().solve_lower_triangular(&mixed);
            if let Some(half) = half {
                *sum -= half.transpose() * half;
            }
        }
    }

    /// Corner forces that a stress, even in the cell, makes in a part of it.
    pub(super) fn forces_of_stress(&self, moments: &Moments, stress: &Vector6<f64>) -> SVector<f64, 24> {
        let volume = self.cell.product() / 8.0;
        SVector::from_fn(|dof, _| {
            let (corner, component) = (dof / 3, dof % 3);
            let mut sum = 0.0;
            for axis in 0..3 {
                let strain = strain_of(&Vector3::ith(axis, 1.0), component);
                let slope = slope_polynomial(corner, axis, &self.cell);
                let mean: f64 = slope.iter().map(|&(number, factor)| factor * moments[number]).sum();
                sum += strain.dot(stress) * mean;
            }
            sum * volume
        })
    }

    /// Stress in the solid material from a strain.
    pub(super) fn stress(&self, strain: &Vector6<f64>) -> Vector6<f64> {
        self.material * strain
    }
}

/// The derivative of a corner's function along `axis`: four monomials with their factors.
fn slope_polynomial(corner: usize, axis: usize, cell: &Vector3<f64>) -> [(usize, f64); 4] {
    const STEP: [usize; 3] = [1, 3, 9];
    let (p, q) = ((axis + 1) % 3, (axis + 2) % 3);
    let factor = side(corner, axis) / (4.0 * cell[axis]);
    let (a, b) = (side(corner, p), side(corner, q));
    [(0, factor), (STEP[p], factor * a), (STEP[q], factor * b), (STEP[p] + STEP[q], factor * a * b)]
}

fn by_moment(cell: &Vector3<f64>, material: &Matrix6<f64>) -> Vec<CellMatrix> {
    let mut matrices = vec![CellMatrix::zeros(); 27];
    let volume = cell.product() / 8.0;
    for (a, axis_a) in corners_and_axes() {
        for (b, axis_b) in corners_and_axes() {
            let (left, right) = (slope_polynomial(a, axis_a, cell), slope_polynomial(b, axis_b, cell));
            for i in 0..3 {
                let strain_a = strain_of(&Vector3::ith(axis_a, 1.0), i);
                for j in 0..3 {
                    let strain_b = strain_of(&Vector3::ith(axis_b, 1.0), j);
                    let energy = strain_a.dot(&(material * strain_b)) * volume;
                    for (m, f) in left {
                        for (n, g) in right {
                            matrices[m + n][(3 * a + i, 3 * b + j)] += energy * f * g;
                        }
                    }
                }
            }
        }
    }
    WANTED.iter().map(|(number, _)| matrices[*number]).collect()
}

fn corners_and_axes() -> impl Iterator<Item = (usize, usize)> {
    (0..8).flat_map(|corner| (0..3).map(move |axis| (corner, axis)))
}

/// A whole cell that can bend within itself: three quadratic modes a component, eliminated (Wilson, Taylor, Doherty &
/// Ghaboussi 1973; on a box they pass the patch test as they are, Taylor, Beresford & Wilson 1976).
fn with_bending(cell: &Vector3<f64>, material: &Matrix6<f64>) -> CellMatrix {
    let mut outer = CellMatrix::zeros();
    let mut mixed = SMatrix::<f64, 9, 24>::zeros();
    let mut inner = SMatrix::<f64, 9, 9>::zeros();
    let point = 1.0 / libm::sqrt(3.0);
    let volume = cell.product() / 8.0;
    for corner in 0..8 {
        let at = Vector3::from_fn(|axis, _| side(corner, axis) * point);
        let slopes = slopes(&at, cell);
        let strains = SMatrix::<f64, 6, 24>::from_fn(|row, dof| strain_of(&slopes[dof / 3], dof % 3)[row]);
        let modes = SMatrix::<f64, 6, 9>::from_fn(|row, mode| {
            let axis = mode / 3;
            let slope = Vector3::ith(axis, -4.0 * at[axis] / cell[axis]);
            strain_of(&slope, mode % 3)[row]
        });
        outer += strains.transpose() * material * strains * volume;
        mixed += modes.transpose() * material * strains * volume;
        inner += modes.transpose() * material * modes * volume;
    }
    let bent = inner.cholesky().map_or_else(SMatrix::zeros, |factors| factors.solve(&mixed));
    let whole = outer - mixed.transpose() * bent;
    (whole + whole.transpose()) / 2.0
}

/// The eight functions as polynomials: their eight monomials with factors.
pub(super) fn shape_polynomials() -> [[(usize, f64); 8]; 8] {
    std::array::from_fn(|corner| {
        std::array::from_fn(|term| {
            let bits = [term & 1, term >> 1 & 1, term >> 2];
            let factor: f64 = (0..3).filter(|&axis| bits[axis] == 1).map(|axis| side(corner, axis)).product();
            (bits[0] + 3 * bits[1] + 9 * bits[2], factor / 8.0)
        })
    })
}
