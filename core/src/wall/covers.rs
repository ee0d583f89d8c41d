use nalgebra::Point3;

use super::ray::{box_entry, inverse};
use super::surface::{Facet, Surface};
use super::tree::Tree;
use crate::mesh::Mesh;
use crate::numeric::map_in_order;

/// Shells that reach into each other by less than this, m, only touch: beyond rounding of 32-bit coordinates, well below
/// a bead.
pub(super) const TOUCH: f64 = 5e-6;

/// Which places of overlapping or touching shells lie inside one another.
#[derive(Debug)]
pub(super) struct Covers {
    /// Number of the shell of each facet.
    shell: Vec<u32>,
    /// Facets that the surface of another shell comes near, so that they may lie inside it in part.
    mixed: Vec<bool>,
    /// Whether shells that touch are one solid.
    united: bool,
    /// Over all facets, those inside another shell too.
    all: Option<Tree>,
}

impl Covers {
    /// Sorts the facets of a surface; also says which bound the part, at least somewhere.
    pub(super) fn new(surface: &Surface<'_>, united: bool) -> (Self, Vec<bool>) {
        let facets = &surface.facets;
        let shell = shells(surface.mesh);
        let mixed = map_in_order(facets.len(), |index| {
            surface.is_wall(index) && comes_near(surface.tree(), facets, &shell, index)
        });
        let covers = Self { shell, mixed, united, all: None };
        let walls = map_in_order(facets.len(), |index| {
            surface.is_wall(index)
                && (covers.mixed[index]
                    || !covers.covered(surface.tree(), &facets[index], &facets[index].centroid(), facets))
        });
        (covers, walls)
    }

    /// The same with the tree over all facets.
    pub(super) fn over(self, all: Tree) -> Self {
        Self { all: Some(all), ..self }
    }

    pub(super) fn same_shell(&self, a: usize, b: usize) -> bool {
        self.shell[a] == self.shell[b]
    }

    pub(super) fn is_open(&self, facets: &[Facet], index: usize, point: &Point3<f64>) -> bool {
        !self.mixed[index] || self.all.as_ref().is_none_or(|tree| !self.covered(tree, &facets[index], point, facets))
    }

    /// Whether a place of a facet lies inside another shell or, where touching shells are one, against it.
    fn covered(&self, tree: &Tree, facet: &Facet, point: &Point3<f64>, facets: &[Facet]) -> bool {
        if self.united {
            windings(tree, facets, facet, &(point + facet.normal * TOUCH)) > 0
        } else {
            windings(tree, facets, facet, &(point - facet.normal * TOUCH)) > 1
        }
    }
}

/// Number of shells round a point on one side of a facet, by what a ray outward from there crosses.
fn windings(tree: &Tree, facets: &[Facet], facet: &Facet, origin: &Point3<f64>) -> i32 {
    // Leaning a little off the normal, so that the ray does not run along edges of regular meshes.
    let lean = (facet.corners[1] - facet.corners[0]) * 0.037 + (facet.corners[2] - facet.corners[0]) * 0.011;
    let outward = lean.try_normalize(0.0).map_or(facet.normal, |lean| (lean * 0.05 + facet.normal).normalize());
    let inverse = inverse(&outward);
    let mut winding = 0;
    for plate in tree.within(|node| box_entry(node, origin, &inverse) < f64::MAX) {
        let other = &facets[plate.facet as usize];
        if other.crossing(origin, &outward).is_some_and(|distance| distance >= 0.0) {
            winding += if other.normal.dot(&outward) > 0.0 { 1 } else { -1 };
        }
    }
    winding
}

/// Whether a facet of another shell meets or touches this one, or might.
fn comes_near(tree: &Tree, facets: &[Facet], shell: &[u32], index: usize) -> bool {
    let facet = &facets[index];
    let (low, high) = extent(facet);
    let apart = |low_other: &Point3<f64>, high_other: &Point3<f64>| {
        (0..3).any(|k| low_other[k] > high[k] + TOUCH || high_other[k] < low[k] - TOUCH)
    };
    tree.within(|node| !apart(&node.low, &node.high)).into_iter().any(|plate| {
        let number = plate.facet as usize;
        let other = &facets[number];
        let (low_other, high_other) = extent(other);
        shell[number] != shell[index]
            && !apart(&low_other, &high_other)
            && !one_side(facet, other)
            && !one_side(other, facet)
    })
}

fn extent(facet: &Facet) -> (Point3<f64>, Point3<f64>) {
    let [a, b, c] = &facet.corners;
    (a.inf(b).inf(c), a.sup(b).sup(c))
}

/// Whether a facet lies wholly on one side of another's plane, clear of it.
fn one_side(plane: &Facet, other: &Facet) -> bool {
    let over = other.corners.map(|corner| plane.normal.dot(&(corner - plane.corners[0])));
    over.iter().all(|&over| over > TOUCH) || over.iter().all(|&over| over < -TOUCH)
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
