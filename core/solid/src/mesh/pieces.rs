//! A body of several shells in its pieces, and how two of them meet.

use nalgebra::{Point3, Vector3};
use parry3d::bounding_volume::BoundingVolume;
use parry3d::math::Pose;
use parry3d::partitioning::{Bvh, BvhBuildStrategy, BvhNode};
use parry3d::query::details::distance_support_map_support_map;
use parry3d::shape::Triangle;

use super::bodies::{Body, TOUCH, bodies};
use super::error::MeshError;
use super::shells::{shells, winding};
use super::solid::Mesh;

/// Bodies that lie in one another by less than this, m, only touch: a quarter of a bead, more than round faces that should
/// touch miss one another by for being drawn in facets, and less than any joint that is meant to hold.
pub const SKIN: f64 = 1e-4;

/// Crossings of two surfaces that are looked at, at most; they are spread over all there are.
const LOOKED_AT: usize = 64;

/// How two bodies meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meeting {
    /// Not at all.
    Apart,
    /// They touch, or lie in one another by less than [`SKIN`].
    Touching,
    /// They lie in one another by more than that.
    Overlapping,
}

impl Body {
    /// Its outer shells one by one, each with the voids in it.
    pub fn pieces(&self) -> Vec<Self> {
        let (shells, owner) = shells(&self.mesh);
        let mut host: Vec<usize> = (0..shells.len()).collect();
        let outer: Vec<usize> = (0..shells.len()).filter(|&s| shells[s].volume >= 0.0).collect();
        for (void, shell) in shells.iter().enumerate().filter(|(_, shell)| shell.volume < 0.0) {
            let point = self.mesh.corners(shell.facets[0] as usize)[0];
            let round = |&&at: &&usize| shells[at].winding(&self.mesh, &point) > 0.5;
            let smaller = |a: &&usize, b: &&usize| shells[**a].volume.total_cmp(&shells[**b].volume);
            host[void] = outer.iter().filter(round).min_by(smaller).copied().unwrap_or(void);
        }
        let piece = |&at: &usize| Self {
            mesh: self.mesh.subset(|facet| host[owner[facet] as usize] == at),
            outer_shells: 1,
            voids: shells.iter().enumerate().filter(|(s, shell)| host[*s] == at && shell.volume < 0.0).count(),
        };
        outer.iter().map(piece).collect()
    }

    /// Bodies of the pieces given, which may have come apart.
    pub fn united(pieces: &[&Self]) -> Result<Vec<Self>, MeshError> {
        bodies(Mesh::together(&pieces.iter().map(|piece| &piece.mesh).collect::<Vec<_>>()))
    }
}

/// A body made ready to be laid beside others.
pub struct Laid<'a> {
    body: &'a Body,
    low: Point3<f64>,
    high: Point3<f64>,
    triangles: Vec<Triangle>,
    tree: Bvh,
}

impl<'a> Laid<'a> {
    /// Prepares a body.
    pub fn new(body: &'a Body) -> Self {
        let triangles: Vec<Triangle> = (0..body.mesh.facets().len()).map(|facet| body.mesh.triangle(facet)).collect();
        let boxes: Vec<_> = triangles.iter().map(|t| t.local_aabb().loosened(TOUCH)).collect();
        let (low, high) = body.mesh.bounds();
        Self { body, low, high, triangles, tree: Bvh::from_leaves(BvhBuildStrategy::Binned, &boxes) }
    }

    /// Whether a point lies in its material.
    pub fn holds(&self, point: &Point3<f64>) -> bool {
        let mesh = &self.body.mesh;
        let boxed = (0..3).all(|k| self.low[k] <= point[k] && point[k] <= self.high[k]);
        boxed && winding((0..mesh.facets().len()).map(|facet| mesh.corners(facet)), point) > 0.5
    }

    /// Whether one of its facets, by its corners, is such a one.
    pub fn reaches(&self, such: impl Fn(&[Point3<f64>; 3]) -> bool) -> bool {
        (0..self.body.mesh.facets().len()).any(|facet| such(&self.body.mesh.corners(facet)))
    }

    /// How it meets another body.
    pub fn meets(&self, other: &Laid<'_>) -> Meeting {
        let pairs: Vec<(u32, u32)> = self.tree.leaf_pairs(&other.tree, BvhNode::intersects).collect();
        let touching = pairs.iter().any(|&(i, j)| {
            let (first, second) = (&self.triangles[i as usize], &other.triangles[j as usize]);
            distance_support_map_support_map(&Pose::IDENTITY, first, second) <= TOUCH
        });
        let (mine, others) = (&self.body.mesh, &other.body.mesh);
        if !touching {
            // One may lie in the other whole.
            let inside = self.holds(&others.corners(0)[0]) || other.holds(&mine.corners(0)[0]);
            return if inside { Meeting::Overlapping } else { Meeting::Apart };
        }
        let crossings: Vec<[Point3<f64>; 3]> = pairs
            .iter()
            .filter_map(|&(i, j)| below_both(&mine.corners(i as usize), &others.corners(j as usize)))
            .collect();
        let deep = |points: &[Point3<f64>; 3]| points.iter().all(|point| self.holds(point) && other.holds(point));
        let stride = crossings.len().div_ceil(LOOKED_AT).max(1);
        if crossings.iter().step_by(stride).any(deep) { Meeting::Overlapping } else { Meeting::Touching }
    }
}

/// Whether two facets pass through one another.
pub(super) fn cross(first: &[Point3<f64>; 3], second: &[Point3<f64>; 3]) -> bool {
    [(first, second), (second, first)].into_iter().any(|(edges, facet)| {
        let passes =
            |normal: Vector3<f64>| (0..3).any(|k| pierced(&edges[k], &edges[(k + 1) % 3], facet, &normal).is_some());
        normal(facet).is_some_and(passes)
    })
}

/// Points [`SKIN`] below both of two facets that cross, beside the middle of their crossing.
fn below_both(first: &[Point3<f64>; 3], second: &[Point3<f64>; 3]) -> Option<[Point3<f64>; 3]> {
    let [n, m] = [normal(first)?, normal(second)?];
    // Faces in one plane cross nowhere; how deep their bodies lie in one another is told by those beside them.
    if n.cross(&m).norm() < 0.05 {
        return None;
    }
    let mut ends: Option<(Point3<f64>, Point3<f64>)> = None;
    for (edges, facet, across) in [(first, second, m), (second, first, n)] {
        for k in 0..3 {
            let Some(point) = pierced(&edges[k], &edges[(k + 1) % 3], facet, &across) else { continue };
            ends = Some(ends.map_or((point, point), |(from, to)| {
                let farther = (point - from).norm_squared() > (to - from).norm_squared();
                (from, if farther { point } else { to })
            }));
        }
    }
    let (from, to) = ends?;
    let down = -(n + m);
    let below = nalgebra::center(&from, &to) + down * (SKIN / -down.dot(&n));
    // To both sides too: where the two only touch end to end, the point itself lies on the joint.
    let along = n.cross(&m).normalize() * (SKIN / 2.0);
    Some([below, below + along, below - along])
}

fn normal(corners: &[Point3<f64>; 3]) -> Option<Vector3<f64>> {
    let [a, b, c] = corners;
    (b - a).cross(&(c - a)).try_normalize(0.0)
}

/// Where an edge passes a facet.
fn pierced(a: &Point3<f64>, b: &Point3<f64>, facet: &[Point3<f64>; 3], normal: &Vector3<f64>) -> Option<Point3<f64>> {
    let (above, below) = (normal.dot(&(a - facet[0])), normal.dot(&(b - facet[0])));
    if (above > 0.0) == (below > 0.0) {
        return None;
    }
    let point = a + (b - a) * (above / (above - below));
    let inside = (0..3).all(|k| {
        let side = facet[(k + 1) % 3] - facet[k];
        normal.dot(&side.cross(&(point - facet[k]))) >= 0.0
    });
    inside.then_some(point)
}
