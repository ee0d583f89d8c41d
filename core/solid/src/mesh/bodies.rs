use crate::numeric::sort_few;
use std::cell::OnceCell;

use nalgebra::Point3;
use parry3d::bounding_volume::BoundingVolume;
use parry3d::math::Pose;
use parry3d::partitioning::{Bvh, BvhBuildStrategy, BvhNode};
use parry3d::query::details::distance_support_map_support_map;
use parry3d::shape::Triangle;

use super::error::MeshError;
use super::pieces::cross;
use super::place::Place;
use super::shells::{Shell, shells};
use super::solid::Mesh;

/// The material bounded by shells that belong together.
#[derive(Debug, Clone)]
pub struct Body {
    /// Its surface.
    pub mesh: Mesh,
    /// Outer shells that make it up; more than one means they overlap or touch, so that volume integrals over the
    /// surface count the overlap twice.
    pub outer_shells: usize,
    /// Closed voids inside.
    pub voids: usize,
}

/// Shells closer than this, metres, are taken as touching: well below a bead, well above rounding of 32-bit coordinates.
pub(super) const TOUCH: f64 = 2e-6;

/// Steps of a file's coordinates by which rounding may part shells that were drawn touching.
const STEPS: f64 = 3.0;

/// Most separate surfaces in a file. Parts have a few; a file of very many is dust, text or a lattice.
const SHELL_LIMIT: usize = 1_000;

/// Sorts the shells of a mesh into bodies, the largest first.
pub fn bodies(mesh: Mesh) -> Result<Vec<Body>, MeshError> {
    let (shells, owner) = shells(&mesh);
    if shells.iter().all(Shell::is_flat) {
        return Err(MeshError::NoVolume);
    }
    if let [only] = shells.as_slice() {
        if only.volume < 0.0 {
            return Err(MeshError::InsideOut { volume_mm3: only.volume * 1e9 });
        }
        return Ok(vec![Body { mesh, outer_shells: 1, voids: 0 }]);
    }
    if shells.len() > SHELL_LIMIT {
        return Err(MeshError::TooManyShells { count: shells.len(), limit: SHELL_LIMIT });
    }
    let group_of = grouped(&mesh, &shells)?;
    let roots: Vec<usize> = (0..shells.len()).filter(|&s| group_of[s] == s).collect();
    let found = roots
        .into_iter()
        .map(|root| {
            let members = (0..shells.len()).filter(|&s| group_of[s] == root);
            let voids = members.clone().filter(|&s| shells[s].volume < 0.0).count();
            Body {
                mesh: mesh.subset(|f| group_of[owner[f] as usize] == root),
                outer_shells: members.count() - voids,
                voids,
            }
        })
        .collect();
    Ok(largest_first(found))
}

/// Volumes nearer to one another than this share are alike: sums over facets in another order differ by far less.
const ALIKE: f64 = 1e-6;

/// Sorts bodies by volume, those alike by their place: the order of facets does not matter.
pub fn largest_first(bodies: Vec<Body>) -> Vec<Body> {
    let mut sized: Vec<(f64, Point3<f64>, Body)> = bodies
        .into_iter()
        .map(|body| {
            let (low, high) = body.mesh.bounds();
            (body.mesh.mass_properties().volume, nalgebra::center(&low, &high), body)
        })
        .collect();
    sort_few(&mut sized, |a, b| b.0.total_cmp(&a.0));
    let by_place = |a: &Point3<f64>, b: &Point3<f64>| {
        // Places nearer than bodies touch are one.
        let steps = |p: &Point3<f64>| [p.x, p.y, p.z].map(|c| (c / TOUCH).round());
        let pairs = steps(a).into_iter().zip(steps(b));
        pairs.map(|(a, b)| a.total_cmp(&b)).find(|order| order.is_ne()).unwrap_or(core::cmp::Ordering::Equal)
    };
    let alike = |a: &(f64, Point3<f64>, Body), b: &(f64, Point3<f64>, Body)| a.0 - b.0 <= ALIKE * a.0.abs();
    for group in sized.chunk_by_mut(alike) {
        sort_few(group, |a, b| by_place(&a.1, &b.1));
    }
    sized.into_iter().map(|(_, _, body)| body).collect()
}

/// For each shell the lowest outer shell of its body.
fn grouped(mesh: &Mesh, shells: &[Shell]) -> Result<Vec<usize>, MeshError> {
    let outer: Vec<usize> = (0..shells.len()).filter(|&s| shells[s].volume >= 0.0).collect();
    let mut group: Vec<usize> = (0..shells.len()).collect();
    let solids: Vec<OnceCell<Solid<'_>>> = shells.iter().map(|_| OnceCell::new()).collect();
    let solid = |shell: usize| solids[shell].get_or_init(|| Solid::of(mesh, &shells[shell]));
    let mut effort = Effort::default();
    for (i, &a) in outer.iter().enumerate() {
        for &b in &outer[i + 1..] {
            if !shells[a].box_meets(&shells[b], touch(mesh)) {
                continue;
            }
            let (root_a, root_b) = (group[a], group[b]);
            if solid(a).joins(solid(b), root_a == root_b, &mut effort)? {
                let (keep, lose) = (root_a.min(root_b), root_a.max(root_b));
                group.iter_mut().filter(|g| **g == lose).for_each(|g| *g = keep);
            }
        }
    }
    for (void, shell) in shells.iter().enumerate().filter(|(_, shell)| shell.volume < 0.0) {
        let point = first_point(mesh, shell);
        let mut around: Option<usize> = None;
        for &host in outer.iter().filter(|&&host| shells[host].box_meets(shell, 0.0)) {
            effort.visit(shells[host].facets.len())?;
            let smaller = around.is_none_or(|best| shells[host].volume < shells[best].volume);
            if smaller && shells[host].winding(mesh, &point) > 0.5 {
                around = Some(host);
            }
        }
        let near = outer.iter().filter(|&&host| around.is_none() && shells[host].box_meets(shell, 0.0));
        for &host in around.iter().chain(near) {
            if let Some(place) = solid(void).pierces(solid(host), &mut effort)? {
                return Err(MeshError::VoidPierces { place });
            }
        }
        let Some(host) = around else {
            return Err(MeshError::InsideOut { volume_mm3: shell.volume * 1e9 });
        };
        group[void] = group[host];
    }
    Ok(group)
}

/// Distance at which shells of a mesh count as touching, m.
fn touch(mesh: &Mesh) -> f64 {
    TOUCH.max(STEPS * mesh.step())
}

fn first_point(mesh: &Mesh, shell: &Shell) -> Point3<f64> {
    mesh.corners(shell.facets[0] as usize)[0]
}

/// What was done to tell which shells belong together, so that no file asks for more than a computer has.
#[derive(Debug, Default)]
struct Effort {
    visits: usize,
    pairs: usize,
}

impl Effort {
    /// Most facets looked at: about half a minute.
    const VISITS: usize = 1_000_000_000;

    /// Most pairs of facets that lie together: their cuts cross in as many points, which must be held at once.
    const PAIRS: usize = 10_000_000;

    fn visit(&mut self, facets: usize) -> Result<(), MeshError> {
        self.visits = self.visits.saturating_add(facets);
        if self.visits > Self::VISITS { Err(MeshError::Entangled) } else { Ok(()) }
    }

    fn pair(&mut self) -> Result<(), MeshError> {
        self.pairs += 1;
        if self.pairs > Self::PAIRS { Err(MeshError::Entangled) } else { Ok(()) }
    }
}

/// An outer shell made ready to be laid beside others.
struct Solid<'a> {
    mesh: &'a Mesh,
    shell: &'a Shell,
    triangles: Vec<Triangle>,
    tree: Bvh,
}

impl<'a> Solid<'a> {
    fn of(mesh: &'a Mesh, shell: &'a Shell) -> Self {
        let triangles: Vec<Triangle> = shell.facets.iter().map(|&f| mesh.triangle(f as usize)).collect();
        let boxes: Vec<_> = triangles.iter().map(|t| t.local_aabb().loosened(touch(mesh))).collect();
        Self { mesh, shell, triangles, tree: Bvh::from_leaves(BvhBuildStrategy::Binned, &boxes) }
    }

    /// Whether the two overlap or touch; where that is `known`, only the effort is counted.
    fn joins(&self, other: &Self, known: bool, effort: &mut Effort) -> Result<bool, MeshError> {
        let mut met = known;
        for (i, j) in self.tree.leaf_pairs(&other.tree, BvhNode::intersects) {
            effort.pair()?;
            met = met || {
                let (first, second) = (&self.triangles[i as usize], &other.triangles[j as usize]);
                distance_support_map_support_map(&Pose::IDENTITY, first, second) <= touch(self.mesh)
            };
        }
        if met {
            return Ok(true);
        }
        effort.visit(self.triangles.len() + other.triangles.len())?;
        Ok(self.holds(other) || other.holds(self))
    }

    /// Where it passes through the surface of another, if it does.
    fn pierces(&self, other: &Self, effort: &mut Effort) -> Result<Option<Place>, MeshError> {
        let mut met = None;
        for (i, j) in self.tree.leaf_pairs(&other.tree, BvhNode::intersects) {
            effort.pair()?;
            let [first, second] = [(self, i), (other, j)].map(|(solid, at)| solid.shell.facets[at as usize] as usize);
            if met.is_none() && cross(&self.mesh.corners(first), &other.mesh.corners(second)) {
                met = Some(Place::from(&self.mesh.middle(first)));
            }
        }
        Ok(met)
    }

    /// Whether a point of the other lies inside.
    fn holds(&self, other: &Self) -> bool {
        self.shell.winding(self.mesh, &first_point(other.mesh, other.shell)) > 0.5
    }
}
