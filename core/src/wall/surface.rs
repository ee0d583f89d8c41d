use nalgebra::{Point3, Vector3};

use super::covers::{Covers, TOUCH};
use super::ray::{box_entry, inverse};
use super::sample::Sample;
use super::tree::Tree;

use crate::mesh::Mesh;
use crate::numeric::map_in_order;

/// A mesh with what is needed to look for its walls: facet planes, and a tree over them.
#[derive(Debug)]
pub struct Surface<'mesh> {
    pub(super) mesh: &'mesh Mesh,
    pub(super) facets: Vec<Facet>,
    /// Facets that bound the part: with area, and not inside another shell all over.
    walls: Vec<bool>,
    tree: Tree,
    /// Half the longest side of every long facet, from the middle of the side; zero for others.
    arms: Vec<Vector3<f64>>,
    /// Greatest extent of the part, m.
    size: f64,
    /// What is needed to tell which places lie inside another shell; absent unless shells overlap or touch.
    covers: Option<Covers>,
}

/// How the shells of a mesh belong together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shells {
    /// There is one, or they lie apart.
    Apart,
    /// Printed as one solid: where they overlap or touch, what lies between them is no surface.
    United,
    /// Parts of their own where they touch, like a rod and its cap; one solid where they overlap.
    Jointed,
}

impl Shells {
    /// Of a part in one piece, from one shell or several.
    pub fn united(several: bool) -> Self {
        if several { Self::United } else { Self::Apart }
    }
}

/// One facet, ready for geometry.
#[derive(Debug, Clone, Copy)]
pub(super) struct Facet {
    pub(super) corners: [Point3<f64>; 3],
    /// Outward, unit length; zero for a facet without area.
    pub(super) normal: Vector3<f64>,
    /// m².
    pub(super) area: f64,
    /// Greatest difference, as a distance between unit vectors, between the normal and those round the facet's corners
    /// where the surface is hollow; zero where a sphere in the material cannot touch the rim.
    pub(super) lean: f64,
}

impl Facet {
    pub(super) fn centroid(&self) -> Point3<f64> {
        let [a, b, c] = self.corners;
        a + ((b - a) + (c - a)) / 3.0
    }

    /// The middle of the longest side of a long facet, and from there half the side; `None` for one that is not long.
    pub(super) fn long_side(&self) -> Option<(Point3<f64>, Vector3<f64>)> {
        /// The side is this many times as long as the facet is high.
        const LONG: f64 = 4.0;
        let longest = (0..3).map(|k| (self.corners[k], self.corners[(k + 1) % 3]));
        let (from, to) = longest.max_by(|a, b| (a.1 - a.0).norm_squared().total_cmp(&(b.1 - b.0).norm_squared()))?;
        let side = to - from;
        (side.norm_squared() > LONG * 2.0 * self.area && self.area > 0.0).then(|| (from + side / 2.0, side / 2.0))
    }

    /// Distance along `direction` at which a ray meets this facet from either side.
    pub(super) fn crossing(&self, origin: &Point3<f64>, direction: &Vector3<f64>) -> Option<f64> {
        let [a, b, c] = self.corners.map(|corner| corner - origin);
        // Signed volumes of the ray against each edge: shared edges give both facets the same bits, so no ray slips
        // between them.
        let (u, v, w) = (direction.dot(&b.cross(&c)), direction.dot(&c.cross(&a)), direction.dot(&a.cross(&b)));
        let inside = (u >= 0.0 && v >= 0.0 && w >= 0.0) || (u <= 0.0 && v <= 0.0 && w <= 0.0);
        let toward = self.normal.dot(direction);
        (inside && toward != 0.0).then(|| self.normal.dot(&a) / toward)
    }
}

impl<'mesh> Surface<'mesh> {
    /// Prepares a mesh.
    pub fn new(mesh: &'mesh Mesh, shells: Shells) -> Self {
        let mut facets: Vec<Facet> = map_in_order(mesh.facets().len(), |index| {
            let twice = mesh.area_vector(index);
            let normal = twice.try_normalize(0.0).unwrap_or_default();
            Facet { corners: mesh.corners(index), normal, area: twice.norm() / 2.0, lean: 0.0 }
        });
        set_lean(mesh, &mut facets);
        let walls: Vec<bool> = facets.iter().map(|facet| facet.area > 0.0).collect();
        let tree = Tree::new(&facets, &walls);
        let (low, high) = mesh.bounds();
        let arms = map_in_order(facets.len(), |k| facets[k].long_side().map_or_else(Vector3::zeros, |(_, arm)| arm));
        let mut surface = Self { mesh, facets, walls, tree, arms, size: (high - low).norm(), covers: None };
        if shells != Shells::Apart {
            let (covers, walls) = Covers::new(&surface, shells == Shells::United);
            let outer = Tree::new(&surface.facets, &walls);
            surface.walls = walls;
            surface.covers = Some(covers.over(core::mem::replace(&mut surface.tree, outer)));
        }
        surface
    }

    /// Half the longest side of a long facet; zero for others.
    pub(super) fn arm(&self, facet: usize) -> &Vector3<f64> {
        &self.arms[facet]
    }

    /// Greatest extent of the part, m.
    pub(super) fn size(&self) -> f64 {
        self.size
    }

    /// Whether a facet bounds the part: it has area and is not inside another shell all over.
    pub fn is_wall(&self, facet: usize) -> bool {
        self.walls[facet]
    }

    /// Unit normal of a facet, out of the material; zero for a facet without area.
    pub fn normal(&self, facet: usize) -> Vector3<f64> {
        self.facets[facet].normal
    }

    /// Whether a place of a facet lies on the outside of the part, not inside another shell.
    pub(super) fn is_open(&self, facet: usize, point: &Point3<f64>) -> bool {
        self.covers.as_ref().is_none_or(|covers| covers.is_open(&self.facets, facet, point))
    }

    /// Whether `facet` bounds the material at a point of facet `from` that lies `distance` away from it.
    pub(super) fn bounds(&self, facet: usize, from: Option<usize>, distance: f64) -> bool {
        let Some(from) = from else { return true };
        // A shell that touches another passes through its surface by rounding.
        let same = || self.covers.as_ref().is_none_or(|covers| covers.same_shell(facet, from));
        facet != from && (distance > TOUCH || same())
    }

    /// Numbers of samples in an order in which neighbours follow one another.
    pub(super) fn in_space(&self, samples: &[Sample]) -> Vec<u32> {
        let mut rank = vec![0; self.facets.len()];
        self.tree.plates().iter().enumerate().for_each(|(place, plate)| rank[plate.facet as usize] = place);
        let mut order: Vec<u32> = (0..samples.len() as u32).collect();
        order.sort_by_key(|&k| rank[samples[k as usize].facet]);
        order
    }

    /// Nearest wall through which a ray from inside leaves the material, with its distance, if it is below `reach`.
    /// `direction` has unit length; `from` is the facet of the origin, if it lies on one.
    pub(super) fn exit(
        &self,
        origin: &Point3<f64>,
        direction: &Vector3<f64>,
        from: Option<usize>,
        reach: f64,
    ) -> Option<(usize, f64)> {
        let (inverse, back) = (inverse(direction), -direction);
        let hit = self.tree.least(
            reach,
            |node, nearest| {
                let entry = box_entry(node, origin, &inverse);
                if entry < nearest && node.most_against(&back) < 0.0 { entry } else { f64::MAX }
            },
            |plates, nearest| {
                let mut best: Option<(f64, usize)> = None;
                for plate in plates.iter().filter(|plate| plate.normal.dot(direction) > 0.0) {
                    let index = plate.facet as usize;
                    if let Some(distance) = self.exit_through(index, origin, direction, from)
                        && distance < best.map_or(nearest, |(distance, _)| distance)
                    {
                        best = Some((distance, index));
                    }
                }
                best
            },
        );
        hit.map(|(distance, index)| (index, distance))
    }

    /// The tree over the walls.
    pub(super) fn tree(&self) -> &Tree {
        &self.tree
    }

    fn exit_through(
        &self,
        index: usize,
        origin: &Point3<f64>,
        direction: &Vector3<f64>,
        from: Option<usize>,
    ) -> Option<f64> {
        let distance = self.facets[index].crossing(origin, direction)?;
        let leaves = distance > 0.0
            && self.bounds(index, from, distance)
            && self.is_open(index, &(origin + direction * distance));
        leaves.then_some(distance)
    }
}

/// Edges count as hollow when the facets beside them lean toward each other by more than this, radians.
const HOLLOW: f64 = 1e-7;

/// Fills in the lean of every facet.
fn set_lean(mesh: &Mesh, facets: &mut [Facet]) {
    // For each corner the box round the normals that meet there, and whether any edge there is hollow.
    let none = (Vector3::repeat(f64::INFINITY), Vector3::repeat(f64::NEG_INFINITY), false);
    let mut round = vec![none; mesh.points().len()];
    for (index, facet) in facets.iter().enumerate() {
        let [a, b, c] = facet.corners;
        for (k, edge) in [b - a, c - b, a - c].iter().enumerate() {
            let beside = facets[mesh.opposite(3 * index + k) / 3].normal;
            let hollow = facet.normal.cross(&beside).dot(edge) < -HOLLOW * edge.norm();
            for end in [k, (k + 1) % 3] {
                let (low, high, any) = &mut round[mesh.facets()[index][end] as usize];
                *low = low.inf(&facet.normal);
                *high = high.sup(&facet.normal);
                *any |= hollow;
            }
        }
    }
    for (facet, corners) in facets.iter_mut().zip(mesh.facets()) {
        for &corner in corners {
            let (low, high, any) = round[corner as usize];
            if any {
                let farthest = (facet.normal - low).abs().sup(&(high - facet.normal).abs()).norm();
                facet.lean = facet.lean.max(farthest);
            }
        }
    }
}
