use nalgebra::{Point3, Vector3};
use parry3d::bounding_volume::Aabb;
use parry3d::partitioning::{Bvh, BvhBuildStrategy};

use super::contact::OPPOSED;
use super::surface::{Facet, to_parry};
use crate::threads::map_in_order;

/// Facets that look roughly the same way, with a tree over patches of neighbours among them.
///
/// A search for facing walls passes over whole bundles and patches by where they look, which a tree of boxes alone
/// cannot do.
#[derive(Debug)]
pub(super) struct Bundle {
    cone: Cone,
    /// Patch after patch.
    plates: Vec<Plate>,
    patches: Vec<Cone>,
    /// Leaf numbers are patch numbers.
    pub(super) tree: Bvh,
}

/// What of a facet decides whether to look at it at all, close together in memory.
#[derive(Debug, Clone, Copy)]
pub(super) struct Plate {
    pub(super) normal: Vector3<f64>,
    pub(super) center: Point3<f64>,
    /// Distance from the center to the farthest corner.
    pub(super) reach: f64,
    pub(super) lean: f64,
    pub(super) facet: u32,
}

/// Directions round an axis.
#[derive(Debug, Clone, Copy)]
struct Cone {
    axis: Vector3<f64>,
    cosine: f64,
    sine: f64,
    /// Greatest lean of its facets.
    lean: f64,
}

/// Facets in a patch, at most.
const PATCH: usize = 8;

impl Bundle {
    /// Sorts the facets marked in `kept` into bundles.
    pub(super) fn all(facets: &[Facet], kept: &[bool]) -> Vec<Self> {
        let mut members: Vec<Vec<u32>> = vec![Vec::new(); 6];
        for (index, facet) in facets.iter().enumerate().filter(|&(index, _)| kept[index]) {
            members[side(&facet.normal)].push(index as u32);
        }
        members.retain(|list| !list.is_empty());
        map_in_order(members.len(), |k| Self::new(facets, &members[k]))
    }

    fn new(all: &[Facet], members: &[u32]) -> Self {
        let facets = in_space(all, members);
        let of = |numbers: &[u32]| Cone::round(numbers.iter().map(|&f| &all[f as usize]));
        let patches: Vec<Cone> = facets.chunks(PATCH).map(of).collect();
        let boxes: Vec<Aabb> = facets
            .chunks(PATCH)
            .map(|patch| {
                let (low, high) = bounds(patch.iter().flat_map(|&f| all[f as usize].corners));
                Aabb::new(to_parry(&low.coords), to_parry(&high.coords))
            })
            .collect();
        let tree = Bvh::from_leaves(BvhBuildStrategy::Binned, &boxes);
        let cone = of(&facets);
        let plate = |facet: u32| {
            let Facet { corners, normal, lean, .. } = all[facet as usize];
            let center = all[facet as usize].centroid();
            let reach = corners.iter().map(|corner| (corner - center).norm()).fold(0.0, f64::max);
            Plate { normal, center, reach, lean, facet }
        };
        Self { cone, plates: facets.into_iter().map(plate).collect(), patches, tree }
    }

    /// Cosine between a unit vector and the direction of the bundle's cone most against it.
    pub(super) fn most_against(&self, direction: &Vector3<f64>) -> f64 {
        self.cone.most_against(direction)
    }

    /// Whether any of its walls could face a sample with this normal.
    pub(super) fn may_face(&self, normal: &Vector3<f64>) -> bool {
        self.cone.may_face(normal)
    }

    /// The same of one patch.
    pub(super) fn patch_may_face(&self, leaf: u32, normal: &Vector3<f64>) -> bool {
        self.patches[leaf as usize].may_face(normal)
    }

    /// All its facets, patch after patch.
    pub(super) fn plates(&self) -> impl Iterator<Item = &Plate> {
        self.plates.iter()
    }

    /// Facets of a patch.
    pub(super) fn patch(&self, leaf: u32) -> &[Plate] {
        let start = leaf as usize * PATCH;
        &self.plates[start..(start + PATCH).min(self.plates.len())]
    }
}

impl Cone {
    fn round<'a>(facets: impl Iterator<Item = &'a Facet> + Clone) -> Self {
        let sum: Vector3<f64> = facets.clone().map(|facet| facet.normal).sum();
        let axis = sum.try_normalize(0.0).unwrap_or_else(Vector3::x);
        let cosine = facets.clone().map(|facet| facet.normal.dot(&axis)).fold(1.0, f64::min);
        let lean = facets.map(|facet| facet.lean).fold(0.0, f64::max);
        Self { axis, cosine, sine: (1.0 - cosine * cosine).max(0.0).sqrt(), lean }
    }

    fn may_face(&self, normal: &Vector3<f64>) -> bool {
        self.most_against(normal) <= OPPOSED + self.lean
    }

    fn most_against(&self, direction: &Vector3<f64>) -> f64 {
        let cosine = self.axis.dot(direction).clamp(-1.0, 1.0);
        // Where the opposite direction lies within the cone, or the cone is wider than a half sphere.
        if -cosine >= self.cosine || self.cosine <= 0.0 {
            -1.0
        } else {
            cosine * self.cosine - (1.0 - cosine * cosine).sqrt() * self.sine
        }
    }
}

/// The face of a cube that a unit vector points through from its middle.
fn side(normal: &Vector3<f64>) -> usize {
    let axis = normal.iamax();
    2 * axis + usize::from(normal[axis] < 0.0)
}

/// Facets in the order of a curve that visits neighbours in space one after another (Morton 1966).
fn in_space(all: &[Facet], members: &[u32]) -> Vec<u32> {
    let centroids = || members.iter().map(|&f| all[f as usize].centroid());
    let (low, high) = bounds(centroids());
    let size = (high - low).amax();
    let scale = if size > 0.0 { f64::from((1_u32 << MORTON_BITS) - 1) / size } else { 0.0 };
    let mut keyed: Vec<(u64, u32)> = centroids()
        .map(|centroid| {
            let cell = (centroid - low) * scale;
            (0..3).map(|k| interleaved(cell[k] as u64) << k).fold(0, |key, bits| key | bits)
        })
        .zip(members.iter().copied())
        .collect();
    keyed.sort_unstable();
    keyed.into_iter().map(|(_, facet)| facet).collect()
}

/// Bits of each coordinate in the curve's key.
const MORTON_BITS: u32 = 20;

/// The bits of a number with two zeros before each.
fn interleaved(number: u64) -> u64 {
    (0..MORTON_BITS).fold(0, |spread, bit| spread | (number >> bit & 1) << (3 * bit))
}

fn bounds(points: impl Iterator<Item = Point3<f64>>) -> (Point3<f64>, Point3<f64>) {
    points.fold((Point3::from([f64::INFINITY; 3]), Point3::from([f64::NEG_INFINITY; 3])), |(low, high), p| {
        (low.inf(&p), high.sup(&p))
    })
}
