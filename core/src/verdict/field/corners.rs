use std::collections::{BTreeMap, BTreeSet};

use nalgebra::{Point3, Vector3};

use crate::mesh::Mesh;

/// Sharp inner corners of a surface: there the stress of an elastic body has no bound, and what a field gives depends on
/// the size of its cells.
#[derive(Debug, Clone)]
pub(crate) struct SharpCorners {
    /// Places along them by the cell they are in.
    cells: BTreeMap<[i64; 3], Vec<Point3<f64>>>,
    reach: f64,
}

/// Turn of the surface beyond which an inner corner is sharp: fillets of meshes turn less from facet to facet, rad.
const SHARP: f64 = 35.0 / 180.0 * core::f64::consts::PI;

impl SharpCorners {
    /// Of a mesh, felt within `reach` (m) of them.
    pub(crate) fn new(mesh: &Mesh, reach: f64) -> Self {
        let mut corners = Self { cells: BTreeMap::new(), reach };
        for facet in 0..mesh.facets().len() {
            let Some(normal) = mesh.area_vector(facet).try_normalize(0.0) else { continue };
            let points = mesh.corners(facet);
            for k in 0..3 {
                let other = mesh.opposite(3 * facet + k) / 3;
                if other <= facet {
                    continue;
                }
                let Some(beyond) = mesh.area_vector(other).try_normalize(0.0) else { continue };
                let inner = (mesh.middle(other) - mesh.middle(facet)).dot(&normal) > 0.0;
                if inner && normal.dot(&beyond) < libm::cos(SHARP) {
                    corners.add(&points[k], &points[(k + 1) % 3]);
                }
            }
        }
        corners
    }

    /// The same with the rims of surfaces that are held as by metal: at their edge stress has no bound either.
    pub(crate) fn and_rims(mut self, mesh: &Mesh, held: impl Iterator<Item = usize>) -> Self {
        let held: BTreeSet<usize> = held.collect();
        for &facet in &held {
            let points = mesh.corners(facet);
            for k in 0..3 {
                if !held.contains(&(mesh.opposite(3 * facet + k) / 3)) {
                    self.add(&points[k], &points[(k + 1) % 3]);
                }
            }
        }
        self
    }

    fn cell(&self, point: &Point3<f64>) -> [i64; 3] {
        [0, 1, 2].map(|axis| (point[axis] / self.reach).floor() as i64)
    }

    fn add(&mut self, from: &Point3<f64>, to: &Point3<f64>) {
        let along: Vector3<f64> = to - from;
        let steps = ((2.0 * along.norm() / self.reach).ceil() as usize).clamp(1, 100_000);
        for step in 0..=steps {
            let point = from + along * (step as f64 / steps as f64);
            let cell = self.cell(&point);
            self.cells.entry(cell).or_default().push(point);
        }
    }

    /// Whether a point is so near one that its stress is that of the corner.
    pub(crate) fn near(&self, point: &Point3<f64>) -> bool {
        let home = self.cell(point);
        (0..27_i64).any(|k| {
            let at = [home[0] + k % 3 - 1, home[1] + k / 3 % 3 - 1, home[2] + k / 9 - 1];
            self.cells.get(&at).is_some_and(|list| list.iter().any(|corner| (corner - point).norm() < self.reach))
        })
    }
}
