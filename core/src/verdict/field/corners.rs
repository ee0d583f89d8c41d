use std::collections::{BTreeMap, BTreeSet};

use nalgebra::{Point3, Vector3};

use crate::mesh::Mesh;

/// Sharp inner corners of a surface: there the stress of an elastic body has no bound, and what a field gives depends on
/// the size of its cells.
#[derive(Debug, Clone)]
pub(crate) struct SharpCorners {
    /// Places along them by the cell they are in.
    cells: BTreeMap<[i64; 3], Vec<Corner>>,
    /// The same of the rims of held surfaces.
    rims: BTreeMap<[i64; 3], Vec<Point3<f64>>>,
    reach: f64,
}

/// A place on a sharp inner corner.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Corner {
    pub(crate) point: Point3<f64>,
    /// Unit vector into the material, half way between its two faces.
    pub(crate) inward: Vector3<f64>,
    /// Unit vector along the corner.
    pub(crate) along: Vector3<f64>,
}

/// Turn of the surface beyond which an inner corner is sharp: fillets of meshes turn less from facet to facet, rad.
const SHARP: f64 = 35.0 / 180.0 * core::f64::consts::PI;

impl SharpCorners {
    /// Of a mesh, felt within `reach` (m) of them.
    pub(crate) fn new(mesh: &Mesh, reach: f64) -> Self {
        let mut corners = Self { cells: BTreeMap::new(), rims: BTreeMap::new(), reach };
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
                    let ends = (&points[k], &points[(k + 1) % 3]);
                    corners.add(ends, &[normal, beyond], &[mesh.middle(facet), mesh.middle(other)]);
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
                    for point in self.along(&points[k], &points[(k + 1) % 3]) {
                        let cell = self.cell(&point);
                        self.rims.entry(cell).or_default().push(point);
                    }
                }
            }
        }
        self
    }

    fn cell(&self, point: &Point3<f64>) -> [i64; 3] {
        [0, 1, 2].map(|axis| (point[axis] / self.reach).floor() as i64)
    }

    /// An edge between two faces, each with its outward unit normal and a point on it.
    fn add(&mut self, (from, to): (&Point3<f64>, &Point3<f64>), normals: &[Vector3<f64>; 2], on: &[Point3<f64>; 2]) {
        let edge: Vector3<f64> = to - from;
        let Some(along) = edge.try_normalize(0.0) else { return };
        // Both faces lead away from the corner and look away from the material; of a slit only the first tells where that is.
        let away = |point: &Point3<f64>| {
            let out = point - from;
            (out - along * along.dot(&out)).try_normalize(0.0).unwrap_or_default()
        };
        let outward = normals[0] + normals[1] + away(&on[0]) + away(&on[1]);
        let Some(inward) = (-outward).try_normalize(0.0) else { return };
        for point in self.along(from, to) {
            let cell = self.cell(&point);
            self.cells.entry(cell).or_default().push(Corner { point, inward, along });
        }
    }

    /// Points along an edge, half a reach apart.
    fn along(&self, from: &Point3<f64>, to: &Point3<f64>) -> Vec<Point3<f64>> {
        let edge: Vector3<f64> = to - from;
        let steps = ((2.0 * edge.norm() / self.reach).ceil() as usize).clamp(1, 100_000);
        (0..=steps).map(|step| from + edge * (step as f64 / steps as f64)).collect()
    }

    /// Cells round that of a point.
    fn cells_round(&self, point: &Point3<f64>) -> impl Iterator<Item = [i64; 3]> + use<> {
        let home = self.cell(point);
        (0..27_i64).map(move |k| [home[0] + k % 3 - 1, home[1] + k / 3 % 3 - 1, home[2] + k / 9 - 1])
    }

    /// Sharp inner corners within their reach of a point.
    pub(crate) fn round(&self, point: &Point3<f64>) -> impl Iterator<Item = &Corner> {
        let at = *point;
        let all = self.cells_round(point).filter_map(|cell| self.cells.get(&cell)).flatten();
        all.filter(move |corner| (corner.point - at).norm() < self.reach)
    }

    /// Whether a point is so near one, or the rim of a held surface, that its stress is that of the corner.
    pub(crate) fn near(&self, point: &Point3<f64>) -> bool {
        let mut rims = self.cells_round(point).filter_map(|cell| self.rims.get(&cell)).flatten();
        self.round(point).next().is_some() || rims.any(|rim| (rim - point).norm() < self.reach)
    }
}
