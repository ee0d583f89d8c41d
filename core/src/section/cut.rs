use nalgebra::{Point3, Vector2};

use super::properties::{AreaProperties, Loop};
use super::union::united;
use crate::mesh::Mesh;
use crate::numeric::map_in_order;

/// The material cut by one plane.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Position of the plane along the load path, m.
    pub position: f64,
    /// Boundary, material on the left.
    pub loops: Vec<Loop>,
    /// Area integrals of the region inside.
    pub properties: AreaProperties,
}

impl Section {
    /// The same cut stretched along `z`.
    #[must_use]
    pub fn stretched(&self, factor: f64) -> Self {
        let wider = |ring: &Loop| ring.iter().map(|p| Vector2::new(p.x, p.y * factor)).collect();
        let loops: Vec<Loop> = self.loops.iter().map(wider).collect();
        Self { position: self.position, properties: AreaProperties::of(&loops), loops }
    }

    /// Length of its boundary, holes included, m.
    pub fn perimeter(&self) -> f64 {
        let sides =
            |ring: &Loop| -> f64 { (0..ring.len()).map(|k| (ring[(k + 1) % ring.len()] - ring[k]).norm()).sum() };
        self.loops.iter().map(sides).sum()
    }
}

/// Cuts `mesh` by the planes `x = planes[i]`, which must rise, in one pass over its facets.
///
/// A corner on a plane counts as beyond it, so every facet that reaches across is cut in exactly one segment and the
/// segments chain into closed loops whatever the mesh. With `unite`, loops of overlapping shells are united.
pub fn sections(mesh: &Mesh, planes: &[f64], unite: bool) -> Vec<Section> {
    let crossing = Crossing::of(mesh, planes);
    map_in_order(planes.len(), |i| {
        let loops = chained(mesh, planes[i], crossing.facets(i));
        let loops = if unite { united(&loops) } else { loops };
        Section { position: planes[i], properties: AreaProperties::of(&loops), loops }
    })
}

/// For each plane the facets that reach across it, in rising order.
struct Crossing {
    start: Vec<usize>,
    facets: Vec<u32>,
}

impl Crossing {
    fn of(mesh: &Mesh, planes: &[f64]) -> Self {
        let slab = slab_numbers(mesh, planes);
        let span = |facet: &[u32; 3]| {
            let [a, b, c] = facet.map(|id| slab[id as usize] as usize);
            (a.min(b).min(c), a.max(b).max(c))
        };
        let mut start = vec![0; planes.len() + 1];
        for facet in mesh.facets() {
            let (low, high) = span(facet);
            for plane in low..high {
                start[plane + 1] += 1;
            }
        }
        for i in 0..planes.len() {
            start[i + 1] += start[i];
        }
        let mut fill = start.clone();
        let mut facets = vec![0; start[planes.len()]];
        for (index, facet) in mesh.facets().iter().enumerate() {
            let (low, high) = span(facet);
            for next in &mut fill[low..high] {
                facets[*next] = index as u32;
                *next += 1;
            }
        }
        Self { start, facets }
    }

    fn facets(&self, plane: usize) -> &[u32] {
        &self.facets[self.start[plane]..self.start[plane + 1]]
    }
}

/// For each corner the number of planes at or below it: the slab it lies in.
pub(super) fn slab_numbers(mesh: &Mesh, planes: &[f64]) -> Vec<u32> {
    mesh.points().iter().map(|p| planes.partition_point(|&plane| plane <= p.x) as u32).collect()
}

fn chained(mesh: &Mesh, plane: f64, facets: &[u32]) -> Vec<Loop> {
    let mut used = vec![false; facets.len()];
    let mut loops = Vec::new();
    for first in 0..facets.len() {
        if used[first] {
            continue;
        }
        let mut ring = Loop::new();
        let mut at = first;
        loop {
            used[at] = true;
            let Some(exit) = rising_half_edge(mesh, facets[at] as usize, plane) else { break };
            let point = crossing_point(mesh, exit, plane);
            if ring.last() != Some(&point) {
                ring.push(point);
            }
            let next = (mesh.opposite(exit) / 3) as u32;
            match facets.binary_search(&next) {
                Ok(index) if !used[index] => at = index,
                _ => break,
            }
        }
        if ring.len() > 1 && ring.first() == ring.last() {
            ring.pop();
        }
        if ring.len() > 2 {
            loops.push(ring);
        }
    }
    loops
}

/// The half-edge of a facet that runs from below the plane to above it.
fn rising_half_edge(mesh: &Mesh, facet: usize, plane: f64) -> Option<usize> {
    let above = mesh.facets()[facet].map(|id| mesh.points()[id as usize].x >= plane);
    (0..3).find(|&k| !above[k] && above[(k + 1) % 3]).map(|k| 3 * facet + k)
}

fn crossing_point(mesh: &Mesh, half_edge: usize, plane: f64) -> Vector2<f64> {
    let facet = mesh.facets()[half_edge / 3];
    let k = half_edge % 3;
    let corner = |k: usize| -> &Point3<f64> { &mesh.points()[facet[k % 3] as usize] };
    let (low, high) = (corner(k), corner(k + 1));
    let share = (plane - low.x) / (high.x - low.x);
    Vector2::new(low.y + (high.y - low.y) * share, low.z + (high.z - low.z) * share)
}
