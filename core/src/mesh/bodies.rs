use nalgebra::Point3;
use parry3d::bounding_volume::BoundingVolume;
use parry3d::math::Pose;
use parry3d::partitioning::{Bvh, BvhBuildStrategy, BvhNode};
use parry3d::query;
use parry3d::shape::Triangle;

use super::shells::{Shell, shells};
use super::{Mesh, MeshError};

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
const TOUCH: f64 = 2e-6;

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
    let group_of = grouped(&mesh, &shells)?;
    let mut roots: Vec<usize> = (0..shells.len()).filter(|&s| group_of[s] == s).collect();
    let volume =
        |root: usize| -> f64 { (0..shells.len()).filter(|&s| group_of[s] == root).map(|s| shells[s].volume).sum() };
    roots.sort_by(|&a, &b| volume(b).total_cmp(&volume(a)).then(a.cmp(&b)));
    Ok(roots
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
        .collect())
}

/// For each shell the lowest outer shell of its body.
fn grouped(mesh: &Mesh, shells: &[Shell]) -> Result<Vec<usize>, MeshError> {
    let outer: Vec<usize> = (0..shells.len()).filter(|&s| shells[s].volume >= 0.0).collect();
    let mut group: Vec<usize> = (0..shells.len()).collect();
    for (i, &a) in outer.iter().enumerate() {
        for &b in &outer[i + 1..] {
            let (root_a, root_b) = (group[a], group[b]);
            if root_a != root_b && shells[a].box_meets(&shells[b], TOUCH) && joined(mesh, &shells[a], &shells[b]) {
                let (keep, lose) = (root_a.min(root_b), root_a.max(root_b));
                group.iter_mut().filter(|g| **g == lose).for_each(|g| *g = keep);
            }
        }
    }
    for (void, shell) in shells.iter().enumerate().filter(|(_, shell)| shell.volume < 0.0) {
        let point = first_point(mesh, shell);
        let around = outer
            .iter()
            .filter(|&&s| shells[s].winding(mesh, &point) > 0.5)
            .min_by(|&&a, &&b| shells[a].volume.total_cmp(&shells[b].volume));
        let Some(&host) = around else {
            return Err(MeshError::InsideOut { volume_mm3: shell.volume * 1e9 });
        };
        group[void] = group[host];
    }
    Ok(group)
}

fn first_point(mesh: &Mesh, shell: &Shell) -> Point3<f64> {
    mesh.corners(shell.facets[0] as usize)[0]
}

/// Whether two outer shells overlap or touch.
fn joined(mesh: &Mesh, a: &Shell, b: &Shell) -> bool {
    let triangles =
        |shell: &Shell| -> Vec<Triangle> { shell.facets.iter().map(|&f| mesh.triangle(f as usize)).collect() };
    let tree = |triangles: &[Triangle]| {
        let boxes: Vec<_> = triangles.iter().map(|t| t.local_aabb().loosened(TOUCH)).collect();
        Bvh::from_leaves(BvhBuildStrategy::Binned, &boxes)
    };
    let (first, second) = (triangles(a), triangles(b));
    let (first_tree, second_tree) = (tree(&first), tree(&second));
    let meets = first_tree.leaf_pairs(&second_tree, BvhNode::intersects).any(|(i, j)| {
        query::distance(&Pose::IDENTITY, &first[i as usize], &Pose::IDENTITY, &second[j as usize])
            .is_ok_and(|gap| gap.distance <= TOUCH)
    });
    meets || a.winding(mesh, &first_point(mesh, b)) > 0.5 || b.winding(mesh, &first_point(mesh, a)) > 0.5
}
