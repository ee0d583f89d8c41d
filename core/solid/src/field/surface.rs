use nalgebra::{Point3, Vector3};

use super::element::shape;
use super::voxels::Voxels;
use crate::field::{clip, moments};
use crate::mesh::Mesh;
use crate::numeric::map_blocks;

/// A point of the surface that stands for a small area of it.
#[derive(Debug, Clone, Copy)]
pub(super) struct SurfacePoint {
    /// The filled cell it belongs to.
    pub(super) cell: [usize; 3],
    /// How the cell's corners share in it.
    pub(super) weights: [f64; 8],
    pub(super) point: Point3<f64>,
    /// Area it stands for, along the outward normal, m².
    pub(super) area: Vector3<f64>,
}

/// Part of a model's surface in points that stand for small areas of it: worked out once for all loads on it.
#[derive(Debug, Clone)]
pub struct SurfacePatch {
    pub(super) points: Vec<SurfacePoint>,
}

impl SurfacePatch {
    /// Points, each with the area it stands for along the outward normal, m².
    pub fn points(&self) -> impl Iterator<Item = (&Point3<f64>, &Vector3<f64>)> {
        self.points.iter().map(|at| (&at.point, &at.area))
    }
}

/// Facets that one thread works on at a time.
const BLOCK: usize = 64;

/// Points over facets, in the facets' order: trilinear functions times a quadratic are integrated exactly.
pub(super) fn points(mesh: &Mesh, voxels: &Voxels, facets: &[usize]) -> Vec<SurfacePoint> {
    map_blocks(facets.len(), BLOCK, |range| {
        let mut list = Vec::new();
        facets[range].iter().for_each(|&facet| over_facet(mesh, voxels, facet, &mut list));
        list
    })
    .concat()
}

fn over_facet(mesh: &Mesh, voxels: &Voxels, facet: usize, list: &mut Vec<SurfacePoint>) {
    let grid = voxels.grid();
    // An area in units of cells becomes one in metres component by component.
    let size = Vector3::new(grid.cell.y * grid.cell.z, grid.cell.z * grid.cell.x, grid.cell.x * grid.cell.y);
    let polygon: clip::Polygon = mesh.corners(facet).iter().map(|p| grid.in_cells(p)).collect();
    let normal = mesh.area_vector(facet);
    let inward = (-normal).component_div(&size).try_normalize(0.0).unwrap_or_default();
    let mut take = |home: [usize; 3], piece: clip::Polygon| {
        moments::over_polygon(&piece, |at, area| {
            let area = area.component_mul(&size);
            if area.norm_squared() == 0.0 {
                return;
            }
            let point = grid.in_metres(&at);
            // Slivers of material too small to keep may leave a piece without a cell; the one beside it takes it.
            let filled = voxels.moments(grid.index(home)).is_some();
            let cell = if filled { Some(home) } else { voxels.cell_near(&point, &-normal) };
            let Some(cell) = cell else { return };
            let local = Vector3::from_fn(|axis, _| 2.0 * (at[axis] - cell[axis] as f64) - 1.0);
            list.push(SurfacePoint { cell, weights: shape(&local), point, area });
        });
    };
    if voxels.is_window() {
        clip::cells_within(&polygon, grid.counts, &inward, &mut take);
    } else {
        clip::cells(&polygon, grid.counts, &inward, &mut take);
    }
}
