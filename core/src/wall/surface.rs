use nalgebra::{Point3, Vector3};

use super::Sample;
use super::tree::{Node, Tree};

use crate::mesh::Mesh;
use crate::threads::map_in_order;

/// A mesh with what is needed to look for its walls: facet planes, and a tree over them.
#[derive(Debug)]
pub struct Surface<'mesh> {
    pub(super) mesh: &'mesh Mesh,
    pub(super) facets: Vec<Facet>,
    /// Facets that bound the part: with area, and not inside another shell.
    walls: Vec<bool>,
    /// Number of the shell of each facet; empty unless shells overlap or touch.
    shell: Vec<u32>,
    tree: Tree,
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

    /// Distance along `direction` at which a ray meets this facet from either side.
    fn crossing(&self, origin: &Point3<f64>, direction: &Vector3<f64>) -> Option<f64> {
        let [a, b, c] = self.corners.map(|corner| corner - origin);
        // Signed volumes of the ray against each edge: shared edges give both facets the same bits, so no ray slips
        // between them.
        let (u, v, w) = (direction.dot(&b.cross(&c)), direction.dot(&c.cross(&a)), direction.dot(&a.cross(&b)));
        let inside = (u >= 0.0 && v >= 0.0 && w >= 0.0) || (u <= 0.0 && v <= 0.0 && w <= 0.0);
        let toward = self.normal.dot(direction);
        (inside && toward != 0.0).then(|| self.normal.dot(&a) / toward)
    }
}

/// Shells that reach into each other by less than this, m, only touch: beyond rounding of 32-bit coordinates, well below
/// a bead.
const TOUCH: f64 = 5e-6;

impl<'mesh> Surface<'mesh> {
    /// Prepares a mesh. `several_shells` says that shells may overlap or touch: facets inside another shell are then no
    /// walls, and shells that merely touch are walls of their own.
    pub fn new(mesh: &'mesh Mesh, several_shells: bool) -> Self {
        let mut facets: Vec<Facet> = map_in_order(mesh.facets().len(), |index| {
            let twice = mesh.area_vector(index);
            let normal = twice.try_normalize(0.0).unwrap_or_default();
            Facet { corners: mesh.corners(index), normal, area: twice.norm() / 2.0, lean: 0.0 }
        });
        set_lean(mesh, &mut facets);
        let walls: Vec<bool> = facets.iter().map(|facet| facet.area > 0.0).collect();
        let tree = Tree::new(&facets, &walls);
        let mut surface = Self { mesh, facets, walls, shell: Vec::new(), tree };
        if several_shells {
            surface.shell = shells(mesh);
            let open = map_in_order(surface.facets.len(), |index| surface.shells_round(index) <= 1);
            surface.walls.iter_mut().zip(open).for_each(|(wall, open)| *wall &= open);
            surface.tree = Tree::new(&surface.facets, &surface.walls);
        }
        surface
    }

    /// Whether a facet bounds the part: it has area and is not inside another shell.
    pub fn is_wall(&self, facet: usize) -> bool {
        self.walls[facet]
    }

    /// Unit normal of a facet, out of the material; zero for a facet without area.
    pub fn normal(&self, facet: usize) -> Vector3<f64> {
        self.facets[facet].normal
    }

    /// Number of shells round the material just under a facet.
    fn shells_round(&self, index: usize) -> i32 {
        let facet = &self.facets[index];
        let origin = facet.centroid() - facet.normal * TOUCH;
        // Leaning a little off the normal, so that the ray does not run along edges of regular meshes.
        let lean = (facet.corners[1] - facet.corners[0]) * 0.037 + (facet.corners[2] - facet.corners[0]) * 0.011;
        let inward = lean.try_normalize(0.0).map_or(-facet.normal, |lean| (lean * 0.05 - facet.normal).normalize());
        let inverse = inverse(&inward);
        let mut winding = 0;
        for plate in self.tree.within(|node| box_entry(node, &origin, &inverse) < f64::MAX) {
            let other = &self.facets[plate.facet as usize];
            if other.crossing(&origin, &inward).is_some_and(|distance| distance >= 0.0) {
                winding += if other.normal.dot(&inward) > 0.0 { 1 } else { -1 };
            }
        }
        winding
    }

    /// Whether `facet` bounds the material at a point of facet `from` that lies `distance` away from it.
    pub(super) fn bounds(&self, facet: usize, from: usize, distance: f64) -> bool {
        // A shell that touches another passes through its surface by rounding.
        facet != from && (distance > TOUCH || self.shell.is_empty() || self.shell[facet] == self.shell[from])
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
    /// `direction` has unit length; `from` is the facet of the origin.
    pub(super) fn exit(
        &self,
        origin: &Point3<f64>,
        direction: &Vector3<f64>,
        from: usize,
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

    fn exit_through(&self, index: usize, origin: &Point3<f64>, direction: &Vector3<f64>, from: usize) -> Option<f64> {
        let distance = self.facets[index].crossing(origin, direction)?;
        (distance > 0.0 && self.bounds(index, from, distance)).then_some(distance)
    }
}

/// Components of a direction smaller than this count as this, so that their inverses stay finite.
const LEAST_SLOPE: f64 = 1e-200;

/// One over each component of a direction.
fn inverse(direction: &Vector3<f64>) -> Vector3<f64> {
    direction.map(|d| if d.abs() > LEAST_SLOPE { 1.0 / d } else { 1.0 / LEAST_SLOPE.copysign(d) })
}

/// Distance along a ray at which it enters a box, or the largest number if it passes by. `inverse` holds one over each
/// component of the direction.
fn box_entry(node: &Node, origin: &Point3<f64>, inverse: &Vector3<f64>) -> f64 {
    let (mut enter, mut leave) = (0.0, f64::MAX);
    for k in 0..3 {
        let (a, b) = ((node.low[k] - origin[k]) * inverse[k], (node.high[k] - origin[k]) * inverse[k]);
        let (first, last) = if a < b { (a, b) } else { (b, a) };
        enter = if first > enter { first } else { enter };
        leave = if last < leave { last } else { leave };
    }
    // A little wide, so that rounding lets no ray slip between boxes that meet.
    if enter <= leave * (1.0 + 1e-12) { enter } else { f64::MAX }
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

/// Number of the connected surface that each facet belongs to.
fn shells(mesh: &Mesh) -> Vec<u32> {
    const UNSEEN: u32 = u32::MAX;
    let mut shell = vec![UNSEEN; mesh.facets().len()];
    let mut count = 0;
    let mut stack = Vec::new();
    for seed in 0..shell.len() {
        if shell[seed] != UNSEEN {
            continue;
        }
        shell[seed] = count;
        stack.push(seed);
        while let Some(facet) = stack.pop() {
            for k in 0..3 {
                let next = mesh.opposite(3 * facet + k) / 3;
                if shell[next] == UNSEEN {
                    shell[next] = count;
                    stack.push(next);
                }
            }
        }
        count += 1;
    }
    shell
}
