use nalgebra::{Point3, Vector3};
use parry3d::math::Vector;
use parry3d::query::PointQuery;
use parry3d::shape::Triangle;

use crate::mesh::Mesh;

/// A part of a surface that tells whether a point lies on it, and how far from it one is.
#[derive(Debug, Clone)]
pub(crate) struct Patch {
    pub(crate) facets: Vec<usize>,
    triangles: Vec<(Triangle, Vector3<f64>)>,
    low: Point3<f64>,
    cell: Vector3<f64>,
    /// Numbers of the triangles that reach into each box of a grid round it.
    boxes: Vec<Vec<u32>>,
    /// Those into which any reaches.
    filled: Vec<u32>,
    /// A point within this distance lies on it, m.
    reach: f64,
}

/// Boxes along each side of the grid.
const BOXES: usize = 12;

/// A surface that turns by less than this (cosine) from a facet's own is the facet's.
const ALIKE: f64 = 0.7;

impl Patch {
    pub(crate) fn new(mesh: &Mesh, facets: Vec<usize>) -> Self {
        let corners = facets.iter().flat_map(|&facet| mesh.corners(facet));
        let none = (Point3::from([f64::INFINITY; 3]), Point3::from([f64::NEG_INFINITY; 3]));
        let (low, high) = corners.fold(none, |(low, high), p| (low.inf(&p), high.sup(&p)));
        let size = if facets.is_empty() { 1.0 } else { (high - low).norm() };
        // Points of a surface are worked out from its corners: rounding moves them far less.
        let reach = 1e-7 + 1e-6 * size;
        let (low, high) = (low - Vector3::repeat(reach), high + Vector3::repeat(reach));
        let cell = (high - low) / BOXES as f64;
        let mut patch = Self {
            facets,
            triangles: Vec::new(),
            low,
            cell,
            boxes: vec![Vec::new(); BOXES * BOXES * BOXES],
            filled: Vec::new(),
            reach,
        };
        for facet in 0..patch.facets.len() {
            let number = patch.facets[facet];
            let corners = mesh.corners(number);
            let normal = mesh.area_vector(number).try_normalize(0.0).unwrap_or_default();
            patch.triangles.push((mesh.triangle(number), normal));
            let (from, to) = corners.iter().fold(none, |(low, high), p| (low.inf(p), high.sup(p)));
            let (from, to) = (patch.at(&(from - Vector3::repeat(reach))), patch.at(&(to + Vector3::repeat(reach))));
            for z in from[2]..=to[2] {
                for y in from[1]..=to[1] {
                    for x in from[0]..=to[0] {
                        patch.boxes[x + BOXES * (y + BOXES * z)].push(facet as u32);
                    }
                }
            }
        }
        let filled = patch.boxes.iter().zip(0_u32..).filter(|(numbers, _)| !numbers.is_empty());
        patch.filled = filled.map(|(_, number)| number).collect();
        patch
    }

    /// Box of a point, the nearest one where it lies outside.
    fn at(&self, point: &Point3<f64>) -> [usize; 3] {
        [0, 1, 2]
            .map(|axis| (((point[axis] - self.low[axis]) / self.cell[axis]).floor().max(0.0) as usize).min(BOXES - 1))
    }

    fn outside(&self, point: &Point3<f64>) -> bool {
        (0..3).any(|axis| {
            let along = point[axis] - self.low[axis];
            along < 0.0 || along > BOXES as f64 * self.cell[axis]
        })
    }

    /// Whether a point of the surface with its outward normal lies on it.
    pub(crate) fn holds(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> bool {
        if self.facets.is_empty() || self.outside(point) {
            return false;
        }
        let [x, y, z] = self.at(point);
        self.boxes[x + BOXES * (y + BOXES * z)].iter().any(|&number| {
            let (triangle, own) = &self.triangles[number as usize];
            own.dot(normal) > ALIKE && distance(triangle, point) <= self.reach
        })
    }

    /// Distance of a point from it, m.
    pub(crate) fn distance(&self, point: &Point3<f64>) -> f64 {
        let mut best = f64::INFINITY;
        let within = |numbers: &[u32], best: &mut f64| {
            for &number in numbers {
                *best = best.min(distance(&self.triangles[number as usize].0, point));
            }
        };
        // The box that is nearest first, then those that may hold something nearer.
        let [x, y, z] = self.at(point);
        within(&self.boxes[x + BOXES * (y + BOXES * z)], &mut best);
        for &number in &self.filled {
            if self.to_box(number as usize, point) < best {
                within(&self.boxes[number as usize], &mut best);
            }
        }
        best
    }

    /// Distance of a point from a box, m.
    fn to_box(&self, number: usize, point: &Point3<f64>) -> f64 {
        let at = [number % BOXES, number / BOXES % BOXES, number / (BOXES * BOXES)];
        let away = Vector3::from_fn(|axis, _| {
            let low = self.low[axis] + at[axis] as f64 * self.cell[axis];
            (low - point[axis]).max(point[axis] - low - self.cell[axis]).max(0.0)
        });
        away.norm()
    }
}

fn distance(triangle: &Triangle, point: &Point3<f64>) -> f64 {
    triangle.distance_to_local_point(Vector::new(point.x, point.y, point.z), false)
}
