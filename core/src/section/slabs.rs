use nalgebra::Point3;

use super::cut::{Section, slab_numbers};
use super::moments::VolumeMoments;
use crate::mesh::Mesh;
use crate::numeric::map_blocks;

/// Exact volume integrals of the material below the first plane, between neighbouring planes, and beyond the last.
///
/// Returns `planes.len() + 1` slabs. The shells of the mesh must not overlap.
pub fn slab_moments(mesh: &Mesh, planes: &[f64]) -> Vec<VolumeMoments> {
    let numbers = slab_numbers(mesh, planes);
    let partial = map_blocks(mesh.facets().len(), 32_768, |range| {
        let mut slabs = vec![VolumeMoments::default(); planes.len() + 1];
        for facet in range {
            let corners = mesh.corners(facet);
            let inside = mesh.facets()[facet].map(|id| numbers[id as usize] as usize);
            let low = inside.into_iter().min().unwrap_or(0);
            let high = inside.into_iter().max().unwrap_or(0);
            if low == high {
                slabs[low].add_triangle(corners);
            } else {
                clipped(corners, planes, low, high, &mut slabs);
            }
        }
        slabs
    });
    let mut total = vec![VolumeMoments::default(); planes.len() + 1];
    for block in partial {
        for (sum, part) in total.iter_mut().zip(block) {
            *sum = sum.plus(&part, 1.0);
        }
    }
    total
}

/// Divides a triangle among the slabs `low..=high`.
fn clipped(corners: [Point3<f64>; 3], planes: &[f64], low: usize, high: usize, slabs: &mut [VolumeMoments]) {
    let mut rest = SpanPolygon::default();
    for corner in corners {
        rest.push(corner);
    }
    for slab in low..high {
        let (below, above) = rest.split(planes[slab]);
        below.add_fan(&mut slabs[slab]);
        rest = above;
    }
    rest.add_fan(&mut slabs[high]);
}

/// What parallel planes leave of a triangle: five corners at most.
#[derive(Default)]
struct SpanPolygon {
    corners: [Point3<f64>; 6],
    count: usize,
}

impl SpanPolygon {
    fn push(&mut self, corner: Point3<f64>) {
        if let Some(free) = self.corners.get_mut(self.count) {
            *free = corner;
            self.count += 1;
        }
    }

    fn add_fan(&self, slab: &mut VolumeMoments) {
        for k in 1..self.count.saturating_sub(1) {
            slab.add_triangle([self.corners[0], self.corners[k], self.corners[k + 1]]);
        }
    }

    /// The parts below and above `x = plane`.
    fn split(&self, plane: f64) -> (Self, Self) {
        let (mut below, mut above) = (Self::default(), Self::default());
        for k in 0..self.count {
            let from = self.corners[k];
            let to = self.corners[if k + 1 == self.count { 0 } else { k + 1 }];
            if from.x < plane {
                below.push(from);
            } else {
                above.push(from);
            }
            if (from.x < plane) != (to.x < plane) {
                let share = (plane - from.x) / (to.x - from.x);
                let mut crossing = from + (to - from) * share;
                crossing.x = plane;
                below.push(crossing);
                above.push(crossing);
            }
        }
        (below, above)
    }
}

/// The same integrals from the sections alone, for bodies of overlapping shells, where the surface counts volume twice.
///
/// Sections are taken as linear between planes; the material beyond the first and last plane is taken as a slab that
/// ends at `low` and `high` with no area there.
pub fn slab_moments_from_sections(sections: &[Section], low: f64, high: f64) -> Vec<VolumeMoments> {
    let density: Vec<(f64, VolumeMoments)> = core::iter::once((low, VolumeMoments::default()))
        .chain(sections.iter().map(|s| (s.position, per_length(s))))
        .chain(core::iter::once((high, VolumeMoments::default())))
        .collect();
    density
        .windows(2)
        .map(|pair| {
            let half = (pair[1].0 - pair[0].0).max(0.0) / 2.0;
            VolumeMoments::default().plus(&pair[0].1, half).plus(&pair[1].1, half)
        })
        .collect()
}

fn per_length(section: &Section) -> VolumeMoments {
    let p = &section.properties;
    let (x, y, z) = (section.position, p.centroid.x, p.centroid.y);
    VolumeMoments {
        volume: p.area,
        first: [p.area * x, p.area * y, p.area * z],
        polar: p.area * (x * x + y * y) + p.second_moment_z,
        xz: p.area * x * z,
        yz: p.product_moment + p.area * y * z,
    }
}
