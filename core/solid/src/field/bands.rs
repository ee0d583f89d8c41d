use nalgebra::Vector3;
use parry3d::math::Vector;
use parry3d::query::PointQuery;

use super::inside::LighterInside;
use super::voxels::Voxels;
use crate::mesh::Mesh;
use crate::numeric::map_in_order;

/// How much of each cell lies in the solid walls and skins, the rest being the lighter inside.
#[derive(Debug, Clone)]
pub(super) struct Bands {
    /// Solid share of every cell of the box, 0 to 1.
    solid: Vec<f32>,
    density: f64,
    inside_stiffness: f64,
}

impl Bands {
    /// Marks the cells nearer to a facet than the part is solid under it ([`LighterInside::solid_depth`]).
    ///
    /// A cell the end of the band runs through counts as solid by the share a band square to its nearest way out would
    /// have, so that thickness is not rounded to whole cells.
    pub(super) fn new(mesh: &Mesh, voxels: &Voxels, inside: &LighterInside) -> Self {
        let grid = voxels.grid();
        let [nx, ny, nz] = grid.counts;
        let edge = libm::cbrt(grid.cell_volume());
        let depths: Vec<f64> = (0..mesh.facets().len())
            .map(|f| mesh.area_vector(f).try_normalize(0.0).map_or(0.0, |normal| inside.solid_depth(&normal)))
            .collect();
        let layers = map_in_order(nz, |k| {
            let mut solid = vec![0.0_f32; nx * ny];
            for (f, &depth) in depths.iter().enumerate() {
                if depth <= 0.0 {
                    continue;
                }
                let corners = mesh.corners(f);
                let reach = depth + edge / 2.0;
                let range = |axis: usize, count: usize| {
                    let (low, high) = corners.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), p| {
                        (l.min(p[axis] - grid.origin[axis]), h.max(p[axis] - grid.origin[axis]))
                    });
                    let cell = |length: f64| (length / grid.cell[axis] - 0.5).ceil().max(0.0) as usize;
                    cell(low - reach)..cell(high + reach).min(count)
                };
                if !range(2, nz).contains(&k) {
                    continue;
                }
                let triangle = mesh.triangle(f);
                for j in range(1, ny) {
                    for i in range(0, nx) {
                        let known = &mut solid[i + nx * j];
                        if *known >= 1.0 {
                            continue;
                        }
                        let at = Vector3::new(i as f64 + 0.5, j as f64 + 0.5, k as f64 + 0.5);
                        let point = grid.in_metres(&at);
                        let distance = triangle.distance_to_local_point(Vector::new(point.x, point.y, point.z), true);
                        let share = ((depth - distance) / edge + 0.5).clamp(0.0, 1.0);
                        *known = known.max(share as f32);
                    }
                }
            }
            solid
        });
        Self {
            solid: layers.into_iter().flatten().collect(),
            density: inside.density,
            inside_stiffness: inside.stiffness,
        }
    }

    /// Stiffness of a cell's material over that of the solid; never quite nothing, so that empty insides stay in place.
    pub(super) fn stiffness(&self, cell: usize) -> f64 {
        const LEAST: f64 = 1e-4;
        let solid = f64::from(self.solid[cell]);
        (solid + (1.0 - solid) * self.inside_stiffness).max(LEAST)
    }

    /// Mass of a cell's material over that of the solid.
    pub(super) fn mass(&self, cell: usize) -> f64 {
        let solid = f64::from(self.solid[cell]);
        solid + (1.0 - solid) * self.density
    }

    /// Solid share of a cell.
    pub(super) fn solid(&self, cell: usize) -> f64 {
        f64::from(self.solid[cell])
    }
}
