use nalgebra::Vector2;

use super::view::Strip;
use crate::mesh::Mesh;

/// Facets whose normals differ by less than this (sine) lie in one plane: rounding of coordinates turns small ones so far.
const FLAT: f64 = 1e-3;

/// Chords that bend by this much (sine) or more to the next are wide: the normal of a piece off their middle misses the axis.
const WIDE: f64 = 0.25;

/// Chords that bend by more than some 66 degrees (cosine) are no round wall's.
const STEEP: f64 = 0.4;

/// No chord.
pub(super) const NONE: u32 = u32::MAX;

/// Finds the wide chords of hollow round walls, by their ends, and gives every facet of one its number and middle.
///
/// Where a coarse bore was divided further, a facet covers a part of its chord: only the chord's middle faces the axis, and
/// only its ends lie on the circle.
pub(super) fn wide_chords(
    mesh: &Mesh,
    walls: &mut [Strip],
    flat: impl Fn(u32) -> Vector2<f64>,
) -> Vec<[Vector2<f64>; 2]> {
    let mut wall_of = vec![NONE; mesh.facets().len()];
    for (wall, number) in walls.iter().zip(0_u32..) {
        wall_of[wall.facet as usize] = number;
    }
    let mut group: Vec<u32> = (0..walls.len() as u32).collect();
    let mut wide = vec![false; walls.len()];
    for index in 0..walls.len() {
        let facet = walls[index].facet as usize;
        for k in 0..3 {
            let across = mesh.opposite(3 * facet + k);
            let other = wall_of[across / 3];
            if other == NONE {
                continue;
            }
            let (here, there) = (walls[index].normal, walls[other as usize].normal);
            let bend = here.perp(&there).abs();
            if bend < FLAT && here.dot(&there) > 0.0 {
                join(&mut group, index as u32, other);
            } else if bend > WIDE && here.dot(&there) > STEEP {
                let apex = flat(mesh.facets()[across / 3][(across % 3 + 2) % 3]);
                let corner = flat(mesh.facets()[facet][k]);
                wide[index] |= here.dot(&(apex - corner)) > 0.0;
            }
        }
    }
    let root_of: Vec<usize> = (0..walls.len() as u32).map(|wall| root(&mut group, wall) as usize).collect();
    for (index, is_wide) in wide.clone().into_iter().enumerate() {
        wide[root_of[index]] |= is_wide;
    }
    let mut extent = vec![(f64::INFINITY, f64::NEG_INFINITY); walls.len()];
    for (wall, &root) in walls.iter().zip(&root_of).filter(|(_, root)| wide[**root]) {
        let normal = walls[root].normal;
        for corner in mesh.facets()[wall.facet as usize] {
            let along = normal.perp(&flat(corner));
            extent[root] = (extent[root].0.min(along), extent[root].1.max(along));
        }
    }
    let mut chords = Vec::new();
    let mut chord_of = vec![NONE; walls.len()];
    for (index, &root) in root_of.iter().enumerate().filter(|(_, root)| wide[**root]) {
        let normal = walls[root].normal;
        let along = Vector2::new(-normal.y, normal.x);
        if chord_of[root] == NONE {
            chord_of[root] = chords.len() as u32;
            let foot = normal * normal.dot(&walls[root].middle);
            let (from, to) = extent[root];
            chords.push([foot + along * from, foot + along * to]);
        }
        let [from, to] = chords[chord_of[root] as usize];
        walls[index].chord = chord_of[root];
        walls[index].middle = (from + to) / 2.0;
    }
    chords
}

fn root(group: &mut [u32], mut wall: u32) -> u32 {
    while group[wall as usize] != wall {
        group[wall as usize] = group[group[wall as usize] as usize];
        wall = group[wall as usize];
    }
    wall
}

/// The lower number becomes the root, so that the order of joining does not matter.
fn join(group: &mut [u32], a: u32, b: u32) {
    let (a, b) = (root(group, a), root(group, b));
    group[a.max(b) as usize] = a.min(b);
}
