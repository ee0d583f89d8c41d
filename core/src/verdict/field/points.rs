use std::collections::BTreeMap;

use nalgebra::{Point3, Vector3};

use crate::field::Voxels;
use crate::mesh::Mesh;

/// Points all over a surface, about a cell apart, and which of them stand for each facet.
#[derive(Debug, Clone)]
pub(crate) struct SurfacePoints {
    /// Each with its outward unit normal.
    pub(crate) points: Vec<(Point3<f64>, Vector3<f64>)>,
    /// About so far apart, m.
    pub(crate) spacing: f64,
    of_facet: Vec<u32>,
    /// Where each facet's points begin in `of_facet`, and its length at the end.
    begins: Vec<u32>,
}

/// Most points; beyond it they lie farther apart.
const MOST: usize = 120_000;

/// So far beside the axes of a part the boxes begin in which points nearly coincide: on the axes many points lie, and rounding
/// would choose their box.
const BESIDE: f64 = 0.314_159;

/// An edge is longer than another only by more than this share: among equal ones rounding would choose.
const LONGER: f64 = 1e-9;

impl SurfacePoints {
    /// `edge` is that of a cell, m.
    pub(crate) fn new(mesh: &Mesh, voxels: &Voxels, edge: f64) -> Self {
        let area: f64 = (0..mesh.facets().len()).map(|f| mesh.area_vector(f).norm() / 2.0).sum();
        let spacing = edge.max((2.0 * area / MOST as f64).sqrt());
        let mut made = Self { points: Vec::new(), spacing, of_facet: Vec::new(), begins: vec![0] };
        let mut known: BTreeMap<([i64; 3], [i8; 3]), u32> = BTreeMap::new();
        let mut pieces = Vec::new();
        for facet in 0..mesh.facets().len() {
            if let Some(normal) = mesh.area_vector(facet).try_normalize(0.0) {
                let facing: [i8; 3] = [0, 1, 2].map(|axis| (2.0 * normal[axis]).round() as i8);
                pieces.push(mesh.corners(facet));
                while let Some(piece) = pieces.pop() {
                    if let Some(halves) = halved(&piece, spacing) {
                        pieces.extend(halves);
                        continue;
                    }
                    let middle = Point3::from(piece.iter().map(|p| p.coords).sum::<Vector3<f64>>() / 3.0);
                    if voxels.deep(&(middle + normal * (0.7 * edge))) {
                        // Within another shell: no surface of the part.
                        continue;
                    }
                    // Of points that nearly coincide the first stands for all.
                    let place: [i64; 3] =
                        [0, 1, 2].map(|axis| (middle[axis] / (0.6 * spacing) + BESIDE).floor() as i64);
                    let next = made.points.len() as u32;
                    let number = *known.entry((place, facing)).or_insert(next);
                    if number == next {
                        made.points.push((middle, normal));
                    }
                    made.of_facet.push(number);
                }
            }
            made.begins.push(made.of_facet.len() as u32);
        }
        made
    }

    /// Points about `edge` (m) apart, with their normals, on what of a surface `wanted` takes in.
    pub(crate) fn near(
        mesh: &Mesh,
        voxels: &Voxels,
        edge: f64,
        wanted: impl Fn(&Point3<f64>) -> bool,
    ) -> Vec<(Point3<f64>, Vector3<f64>)> {
        let grid = voxels.grid();
        let high = grid.origin + grid.cell.component_mul(&Vector3::from_fn(|axis, _| grid.counts[axis] as f64));
        let apart = |piece: &[Point3<f64>; 3]| {
            (0..3).any(|axis| {
                piece.iter().all(|p| p[axis] < grid.origin[axis]) || piece.iter().all(|p| p[axis] > high[axis])
            })
        };
        let mut points = Vec::new();
        let mut pieces = Vec::new();
        for facet in 0..mesh.facets().len() {
            let Some(normal) = mesh.area_vector(facet).try_normalize(0.0) else { continue };
            pieces.push(mesh.corners(facet));
            while let Some(piece) = pieces.pop() {
                if apart(&piece) {
                    continue;
                }
                if let Some(halves) = halved(&piece, edge) {
                    pieces.extend(halves);
                    continue;
                }
                let middle = Point3::from(piece.iter().map(|p| p.coords).sum::<Vector3<f64>>() / 3.0);
                if wanted(&middle) && !voxels.deep(&(middle + normal * (0.7 * edge))) {
                    points.push((middle, normal));
                }
            }
        }
        points
    }

    /// Points that stand for a facet; none where it lies within the part.
    fn of(&self, facet: usize) -> &[u32] {
        &self.of_facet[self.begins[facet] as usize..self.begins[facet + 1] as usize]
    }

    /// For every facet the stress over what is borne at the worst of its points, from the margin at each point.
    pub(crate) fn painted(&self, margin: impl Fn(usize) -> Option<f64>) -> Vec<Option<f64>> {
        let facets = self.begins.len() - 1;
        let least = |facet| self.of(facet).iter().filter_map(|&point| margin(point as usize)).reduce(f64::min);
        (0..facets).map(|facet| least(facet).map(|margin| 1.0 / margin.max(1e-9))).collect()
    }
}

/// Two halves of a triangle, cut across its longest edge, if that is longer than `longest`.
fn halved(corners: &[Point3<f64>; 3], longest: f64) -> Option<[[Point3<f64>; 3]; 2]> {
    let length = |k: usize| (corners[(k + 1) % 3] - corners[k]).norm_squared();
    let k = (1..3).fold(0, |best, k| if length(k) > length(best) * (1.0 + LONGER) { k } else { best });
    let (a, b, c) = (corners[k], corners[(k + 1) % 3], corners[(k + 2) % 3]);
    let middle = nalgebra::center(&a, &b);
    // An edge too short to halve ends it whatever the length asked for.
    let ends = length(k) <= longest * longest || middle == a || middle == b;
    (!ends).then_some([[a, middle, c], [middle, b, c]])
}
