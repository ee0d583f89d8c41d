use super::element::CellMatrix;
use super::number::Number;

/// The matrix of a whole cell, and of a node amid whole cells, ready for use.
#[derive(Debug, Clone)]
pub(super) struct Whole<T> {
    /// For each corner the node may be, and each dof of the cell, the node's three forces.
    pub(super) corner: [[[T; 3]; 24]; 8],
    /// Of a node amid whole cells, for each component of displacement.
    pub(super) amid: [Coupling<T>; 3],
    /// Whether the axes of the material are those of the grid: then displacements along an axis make forces along it by
    /// `own` alone, and along another by what changes sign with both.
    pub(super) aligned: bool,
}

/// Forces on a node amid whole cells from the displacements of the 27 nodes round it, along one axis.
///
/// A whole cell looks the same from both ends, so that opposite neighbours count alike. What a neighbour at `(x, y, z)`, each
/// -1, 0 or 1, does is then a sum of four parts: one that is the same whatever the signs, and three that change sign with two
/// of the coordinates and not with the third. Each part needs one sum over the neighbours that differ in signs alone.
#[derive(Debug, Clone, Copy)]
pub(super) struct Coupling<T> {
    /// The same for all signs: by whether `x`, `y` and `z` are 0, `x` first.
    pub(super) own: [[T; 3]; 8],
    /// With the signs of `x` and `y`: `z` 0, then not.
    pub(super) xy: [[T; 3]; 2],
    /// With those of `z` and `x`, by `y`.
    pub(super) zx: [[T; 3]; 2],
    /// With those of `y` and `z`, by `x`.
    pub(super) yz: [[T; 3]; 2],
}

impl<T: Number<Factor = T>> Whole<T> {
    /// In numbers that keep `precision` of the largest.
    pub(super) fn new(matrix: &CellMatrix, precision: f64, number: impl Fn(f64) -> T) -> Self {
        let mut sums = [[[0.0; 3]; 3]; 27];
        let mut corner = [[[T::default(); 3]; 24]; 8];
        for c in 0..8 {
            for dof in 0..24 {
                let d = dof / 3;
                let step = |axis: usize| 1 + (d >> axis & 1) - (c >> axis & 1);
                let neighbour = step(0) + 3 * step(1) + 9 * step(2);
                for r in 0..3 {
                    let entry = matrix[(3 * c + r, dof)];
                    corner[c][dof][r] = number(entry);
                    sums[neighbour][dof % 3][r] += entry;
                }
            }
        }
        let parts = [0, 1, 2].map(|component| Coupling::of(&sums, component));
        let most = parts.iter().flat_map(|part| part.own.iter().flatten()).fold(0.0, |most: f64, f| most.max(f.abs()));
        let aligned = parts.iter().enumerate().all(|(axis, part)| part.strays(axis) <= precision * most);
        let amid = parts.map(|part| Coupling {
            own: part.own.map(|forces| forces.map(&number)),
            xy: part.xy.map(|forces| forces.map(&number)),
            zx: part.zx.map(|forces| forces.map(&number)),
            yz: part.yz.map(|forces| forces.map(&number)),
        });
        Self { corner, amid, aligned }
    }
}

impl Coupling<f64> {
    /// From the forces by neighbour, number `1 + x + 3 (1 + y) + 9 (1 + z)`, and component.
    fn of(sums: &[[[f64; 3]; 3]; 27], component: usize) -> Self {
        // Mean over all neighbours that differ from one in signs alone, each with the signs of some coordinates.
        let mean = |away: [usize; 3], signed: [bool; 3]| -> [f64; 3] {
            let mut total = [0.0; 3];
            for signs in 0..8_usize {
                let at = [0, 1, 2].map(|axis| if signs >> axis & 1 == 1 { 1 + away[axis] } else { 1 - away[axis] });
                let minus = (0..3).filter(|&axis| signed[axis] && signs >> axis & 1 == 0).count();
                let sign = if minus % 2 == 1 { -1.0 } else { 1.0 };
                let forces = &sums[at[0] + 3 * at[1] + 9 * at[2]][component];
                total.iter_mut().zip(forces).for_each(|(sum, force)| *sum += sign * force / 8.0);
            }
            total
        };
        Self {
            own: std::array::from_fn(|n| mean([n & 1, n >> 1 & 1, n >> 2], [false; 3])),
            xy: [0, 1].map(|z| mean([1, 1, z], [true, true, false])),
            zx: [0, 1].map(|y| mean([1, y, 1], [true, false, true])),
            yz: [0, 1].map(|x| mean([x, 1, 1], [false, true, true])),
        }
    }

    /// Greatest force that would not be if the material's axes were the grid's.
    fn strays(&self, axis: usize) -> f64 {
        let [x, y, z] = [0, 1, 2];
        let beside = |forces: &[[f64; 3]], kept: Option<usize>| {
            let others = forces.iter().flat_map(|f| f.iter().enumerate().filter(|(r, _)| Some(*r) != kept));
            others.fold(0.0, |most: f64, (_, force)| most.max(force.abs()))
        };
        let of = |a: usize, b: usize| {
            if axis == a {
                Some(b)
            } else if axis == b {
                Some(a)
            } else {
                None
            }
        };
        let parts = [
            beside(&self.own, Some(axis)),
            beside(&self.xy, of(x, y)),
            beside(&self.zx, of(z, x)),
            beside(&self.yz, of(y, z)),
        ];
        parts.into_iter().fold(0.0, f64::max)
    }
}
