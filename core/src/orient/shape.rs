use nalgebra::{Point3, Vector3};
use parry3d::bounding_volume::Aabb;
use parry3d::math::Vector;
use parry3d::partitioning::{Bvh, BvhBuildStrategy, BvhNode};
use parry3d::query::{PointQuery, Ray, RayCast};
use parry3d::shape::Triangle;

use super::footing::Footing;
use super::rest::Settling;
use crate::mesh::Mesh;
use crate::numeric::map_in_order;

/// The surface of a part, prepared for being laid on a bed in many ways.
///
/// Support needs are taken from some thousand patches of the surface instead of every facet; lowest and highest points
/// are those of the facets themselves.
pub struct Shape {
    triangles: Vec<Triangle>,
    tree: Bvh,
    patches: Vec<Patch>,
    corners: Vec<Point3<f64>>,
    centroid: Point3<f64>,
    size: f64,
}

/// A small piece of the surface that looks one way.
struct Patch {
    normal: Vector3<f64>,
    area: f64,
    /// A point on it, and the facet the point lies on.
    point: Point3<f64>,
    facet: u32,
}

/// A part laid on a bed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Posed {
    /// Height above the bed, m.
    pub height: f64,
    /// Surface that rests on the bed, m².
    pub contact_area: f64,
    /// Surface that hangs over and needs support, m².
    pub support_area: f64,
    /// Room between that surface and what is below it, bed or part, m³.
    pub support_volume: f64,
    /// Height of the centre of mass over its least distance from the edge of the footing; infinite where the part would
    /// tip over by itself.
    pub tip_ratio: f64,
}

/// Patches that a surface is divided into, give or take its corners and curves.
const PATCHES: f64 = 1500.0;

/// Steps of a normal's components within one patch.
const NORMAL_STEPS: f64 = 10.0;

/// A face lies on the bed if it leans less than 11.5 degrees: cosine.
pub(super) const LEVEL: f64 = 0.98;

impl Shape {
    /// Prepares a closed surface.
    pub fn new(mesh: &Mesh) -> Self {
        let triangles: Vec<Triangle> = (0..mesh.facets().len()).map(|facet| mesh.triangle(facet)).collect();
        let boxes: Vec<Aabb> = triangles.iter().map(Triangle::local_aabb).collect();
        let tree = Bvh::from_leaves(BvhBuildStrategy::Binned, &boxes);
        let (low, high) = mesh.bounds();
        Self {
            triangles,
            tree,
            patches: patches(mesh),
            corners: mesh.points().to_vec(),
            centroid: mesh.mass_properties().centroid,
            size: (high - low).norm(),
        }
    }

    /// Diagonal of the box round it, m.
    pub fn size(&self) -> f64 {
        self.size
    }

    /// Lays the part with the unit vector `build` upward. Surfaces that lean outward more than `overhang` from upright
    /// (rad) need support; the lowest `layer_height` (m) rests on the bed.
    pub fn posed(&self, build: &Vector3<f64>, overhang: f64, layer_height: f64) -> Posed {
        let (bottom, top) = (-self.farthest(&-build), self.farthest(build));
        let hanging = libm::sin(overhang);
        let (mut support_area, mut support_volume) = (0.0, 0.0);
        for patch in &self.patches {
            let down = -patch.normal.dot(build);
            let above = build.dot(&patch.point.coords) - bottom;
            let lies = down > LEVEL && above < layer_height;
            if !lies && down > hanging {
                support_area += patch.area;
                support_volume += patch.area * down * self.drop(patch, build, above);
            }
        }
        let footing = self.footing(build, bottom, layer_height);
        Posed {
            height: top - bottom,
            contact_area: footing.area,
            support_area,
            support_volume,
            tip_ratio: footing.tip_ratio(build, &self.centroid, bottom),
        }
    }

    /// What of the part lies within the lowest layer.
    fn footing(&self, build: &Vector3<f64>, bottom: f64, layer_height: f64) -> Footing {
        let along = to_parry(build);
        let top = bottom + layer_height;
        let reaches = |node: &BvhNode| {
            let (low, high) = (node.mins() * along, node.maxs() * along);
            let least = low.min(high);
            least.x + least.y + least.z <= top
        };
        let mut footing = Footing::default();
        for leaf in self.tree.leaves(reaches) {
            let Triangle { a, b, c } = self.triangles[leaf as usize];
            footing.add([a, b, c].map(|corner| Point3::new(corner.x, corner.y, corner.z)), build, top);
        }
        footing
    }

    /// Ways up in which the part comes to rest by itself, put down in many ways; those within a degree of another are left
    /// out.
    pub fn resting(&self) -> Vec<Vector3<f64>> {
        /// Ways in which it is put down.
        const STARTS: usize = 100;
        const SAME: f64 = 0.999_85;
        let settling = Settling { corners: &self.corners, center_of_mass: self.centroid, size: self.size };
        let starts = super::sphere::equal_area(STARTS);
        let found = map_in_order(starts.len(), |k| settling.at_rest(&starts[k]));
        let mut resting: Vec<Vector3<f64>> = Vec::new();
        for up in found.into_iter().flatten() {
            if resting.iter().all(|other| other.dot(&up) < SAME) {
                resting.push(up);
            }
        }
        resting
    }

    /// Least distance from a point to the surface, m, if it is below `limit`.
    pub(super) fn distance(&self, point: &Point3<f64>, limit: f64) -> Option<f64> {
        let at = to_parry(&point.coords);
        let to_box = |node: &BvhNode, _| {
            let gap = (node.mins() - at).max(at - node.maxs()).max(Vector::ZERO);
            gap.length()
        };
        let to_facet = |leaf: u32, _| {
            let distance = self.triangles[leaf as usize].distance_to_local_point(at, true);
            Some((distance, ()))
        };
        self.tree.find_best(limit, to_box, to_facet).map(|(_, (distance, ()))| distance)
    }

    /// Points spread over the surface.
    pub(super) fn points(&self) -> impl Iterator<Item = &Point3<f64>> {
        self.patches.iter().map(|patch| &patch.point)
    }

    /// Farthest reach along a unit vector, m.
    fn farthest(&self, direction: &Vector3<f64>) -> f64 {
        let along = to_parry(direction);
        let of_box = |node: &BvhNode, _| {
            let (low, high) = (node.mins() * along, node.maxs() * along);
            let most = low.max(high);
            -(most.x + most.y + most.z)
        };
        let of_facet = |leaf: u32, _| {
            let Triangle { a, b, c } = self.triangles[leaf as usize];
            Some((-(a.dot(along).max(b.dot(along)).max(c.dot(along))), ()))
        };
        self.tree.find_best(f64::MAX, of_box, of_facet).map_or(0.0, |(_, (least, ()))| -least)
    }

    /// Free height below a patch, down to the part or to the bed.
    fn drop(&self, patch: &Patch, build: &Vector3<f64>, above: f64) -> f64 {
        let ray = Ray::new(to_parry(&patch.point.coords), to_parry(&-build));
        let hit = self.tree.cast_ray(&ray, above, |leaf, best| {
            if leaf == patch.facet { None } else { self.triangles[leaf as usize].cast_local_ray(&ray, best, true) }
        });
        hit.map_or(above, |(_, distance)| distance)
    }
}

/// Joins facets that look one way within one cell of space.
fn patches(mesh: &Mesh) -> Vec<Patch> {
    let count = mesh.facets().len();
    let area = |facet: usize| mesh.area_vector(facet).norm() / 2.0;
    let total: f64 = (0..count).map(area).sum();
    let cell = (total / PATCHES).sqrt();
    let mut keyed: Vec<([i32; 6], u32)> = Vec::with_capacity(count);
    for facet in 0..count {
        let Some(normal) = mesh.area_vector(facet).try_normalize(0.0) else { continue };
        let middle = mesh.middle(facet) / cell;
        // Off the round numbers that faces and their normals like, so that rounding does not decide the patch.
        let step = |value: f64| (value + 0.463).floor() as i32;
        let look = normal * NORMAL_STEPS;
        let key = [middle.x, middle.y, middle.z, look.x, look.y, look.z].map(step);
        keyed.push((key, facet as u32));
    }
    keyed.sort_unstable();
    keyed
        .chunk_by(|a, b| a.0 == b.0)
        .filter_map(|group| {
            let sum: Vector3<f64> = group.iter().map(|&(_, facet)| mesh.area_vector(facet as usize)).sum();
            let facet = group[0].1;
            Some(Patch {
                normal: sum.try_normalize(0.0)?,
                area: group.iter().map(|&(_, facet)| area(facet as usize)).sum(),
                point: mesh.middle(facet as usize),
                facet,
            })
        })
        .collect()
}

fn to_parry(v: &Vector3<f64>) -> Vector {
    Vector::new(v.x, v.y, v.z)
}
