use nalgebra::{Matrix3, SymmetricEigen, Vector3};

use super::search::Sight;
use crate::mesh::Mesh;
use crate::numeric::map_blocks;

/// Cells along each side of the map of directions.
const CELLS: usize = 96;

/// Edges bent less than this (sine) are flat, more than that are corners, not facets of a round wall.
pub(super) const LEAST_BEND: f64 = 0.003;

/// Greatest bend of a round wall's facets, one of which is seen from the axis under the widest angle.
fn greatest_bend(sight: Sight) -> f64 {
    libm::sin(sight.widest_wall())
}

/// Directions kept for the search of bores.
const CANDIDATES: usize = 5;

/// Directions along which the mesh has hollow round walls, the strongest first, each worked out when it is asked for.
///
/// On a hollow cylinder the edges between neighbouring facets run along its axis and bend toward it; a map of edge
/// directions weighted by length and bend therefore peaks at the axes of bores and fillets.
pub(super) fn bore_directions(mesh: &Mesh, normals: &[Vector3<f64>], sight: Sight) -> BoreDirections {
    const BLOCK: usize = 65_536;
    let greatest = greatest_bend(sight);
    let partial = map_blocks(mesh.facets().len(), BLOCK, |range| {
        let mut bends = Vec::new();
        for facet in range {
            let corners = mesh.corners(facet);
            for k in 0..3 {
                let across = mesh.opposite(3 * facet + k);
                let other = across / 3;
                if other <= facet {
                    continue;
                }
                let turn = normals[facet].cross(&normals[other]);
                let sine = turn.norm();
                if !(LEAST_BEND..greatest).contains(&sine) || normals[facet].dot(&normals[other]) < 0.0 {
                    continue;
                }
                let apex = mesh.points()[mesh.facets()[other][(across % 3 + 2) % 3] as usize];
                let hollow = normals[facet].dot(&(apex - corners[k])) > 0.0;
                if hollow {
                    let length = (corners[(k + 1) % 3] - corners[k]).norm();
                    bends.push((turn / sine, length * sine));
                }
            }
        }
        bends
    });
    BoreDirections::new(partial)
}

/// Edges that bend, by their direction and weight.
type Bends = Vec<(Vector3<f64>, f64)>;

/// The peaks of a map of directions, the highest first.
pub(super) struct BoreDirections {
    bends: Vec<Bends>,
    map: Vec<f64>,
    found: Vec<Vector3<f64>>,
    looked: usize,
}

impl BoreDirections {
    fn new(bends: Vec<Bends>) -> Self {
        let mut map = vec![0.0; CELLS * CELLS];
        for (direction, weight) in bends.iter().flatten() {
            map[cell(direction)] += weight;
        }
        Self { bends, map, found: Vec::new(), looked: 0 }
    }

    /// The mean direction of the bends in and round a cell, which is coarse; `None` for an empty one.
    fn sharpened(&self, cell_of_peak: usize) -> Option<Vector3<f64>> {
        let all = || self.bends.iter().flatten();
        let mut axis = all().find(|(d, _)| cell(d) == cell_of_peak).map(|(d, _)| *d)?;
        for cosine in [0.995, 0.9995, 0.9999] {
            let spread: Matrix3<f64> = all()
                .filter(|(d, _)| d.dot(&axis).abs() > cosine)
                .fold(Matrix3::zeros(), |sum, (d, w)| sum + d * d.transpose() * *w);
            let eigen = SymmetricEigen::new(spread);
            axis = eigen.eigenvectors.column(eigen.eigenvalues.imax()).into_owned();
        }
        Some(axis)
    }
}

impl Iterator for BoreDirections {
    type Item = Vector3<f64>;

    fn next(&mut self) -> Option<Vector3<f64>> {
        while self.looked < CANDIDATES {
            self.looked += 1;
            let (best, &weight) = self.map.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1))?;
            if weight <= 0.0 {
                return None;
            }
            let axis = self.sharpened(best)?;
            for (direction, _) in self.bends.iter().flatten().filter(|(d, _)| d.dot(&axis).abs() > 0.99) {
                self.map[cell(direction)] = 0.0;
            }
            self.map[best] = 0.0;
            if self.found.iter().all(|other| other.dot(&axis).abs() < 0.999) {
                let axis = upward(axis);
                self.found.push(axis);
                return Some(axis);
            }
        }
        None
    }
}

/// The one of two opposite vectors whose largest component is positive.
pub(super) fn upward(axis: Vector3<f64>) -> Vector3<f64> {
    if axis[axis.iamax()] < 0.0 { -axis } else { axis }
}

/// Cell of an undirected line in an octahedral map of the half sphere.
fn cell(direction: &Vector3<f64>) -> usize {
    let d = upward(*direction);
    let d = if d.z < 0.0 { -d } else { d };
    let sum = d.x.abs() + d.y.abs() + d.z.abs();
    let (u, v) = ((d.x + d.y) / sum, (d.x - d.y) / sum);
    let index = |t: f64| ((f64::midpoint(t, 1.0) * CELLS as f64) as usize).min(CELLS - 1);
    index(u) * CELLS + index(v)
}
