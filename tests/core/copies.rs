//! Copies of a part that must get the answer of the part itself: turned and moved, with facets in another order, divided,
//! mirrored and scaled. Seeded: the same copies on every run.
//!
//! A [`Solid`] has its corners in double precision; [`stl_of`] writes it with corners in single precision, as files have
//! them.

use core::f64::consts::TAU;
use std::collections::HashMap;

use nalgebra::{Isometry3, Matrix3, Point3, Quaternion, Rotation3, Translation3, UnitQuaternion, Vector3};
use rand_pcg::Pcg64;
use rand_pcg::rand_core::Rng;

use crate::mesh::shapes::Solid;
use crate::mesh::stl;

/// Turns spread evenly over all there are (Shoemake, Uniform random rotations, Graphics Gems III, 1992), each with a shift
/// of up to `reach` along every axis, in the units of the part.
pub(crate) fn poses(seed: u64, count: usize, reach: f64) -> Vec<Isometry3<f64>> {
    let mut random = Pcg64::new(u128::from(seed), 18);
    let mut uniform = move || (random.next_u64() >> 11) as f64 / (1_u64 << 53) as f64;
    (0..count)
        .map(|_| {
            let (share, first, second) = (uniform(), TAU * uniform(), TAU * uniform());
            let (a, b) = ((1.0 - share).sqrt(), share.sqrt());
            let turn = Quaternion::new(
                b * libm::cos(second),
                a * libm::sin(first),
                a * libm::cos(first),
                b * libm::sin(second),
            );
            let shift = Vector3::from_fn(|_, _| reach * (2.0 * uniform() - 1.0));
            Isometry3::from_parts(Translation3::from(shift), UnitQuaternion::new_normalize(turn))
        })
        .collect()
}

/// The part under the 24 turns that take axes to axes, with each turn. Coordinates are exchanged to the bit, so faces in one
/// plane stay so.
pub(crate) fn square_copies(solid: &Solid) -> Vec<(Isometry3<f64>, Solid)> {
    let axes = [Vector3::x(), Vector3::y(), Vector3::z()];
    let signed = || axes.into_iter().flat_map(|axis| [axis, -axis]);
    let pairs = signed().flat_map(|x| signed().filter(move |y| x.dot(y) == 0.0).map(move |y| (x, y)));
    pairs
        .map(|(x, y)| {
            let matrix = Matrix3::from_columns(&[x, y, x.cross(&y)]);
            let turn = UnitQuaternion::from_rotation_matrix(&Rotation3::from_matrix_unchecked(matrix));
            let points = solid.points.iter().map(|p| matrix * p).collect();
            let copy = Solid { points, facets: solid.facets.clone() };
            (Isometry3::from_parts(Translation3::identity(), turn), copy)
        })
        .collect()
}

/// The part with every facet divided into four at the middles of its sides.
pub(crate) fn divided(solid: &Solid) -> Solid {
    let mut points = solid.points.clone();
    let mut middles: HashMap<(u32, u32), u32> = HashMap::new();
    let mut facets = Vec::with_capacity(4 * solid.facets.len());
    for &[a, b, c] in &solid.facets {
        let [ab, bc, ca] = [(a, b), (b, c), (c, a)].map(|(from, to)| {
            *middles.entry((from.min(to), from.max(to))).or_insert_with(|| {
                points.push(nalgebra::center(&solid.points[from as usize], &solid.points[to as usize]));
                points.len() as u32 - 1
            })
        });
        facets.extend([[a, ab, ca], [ab, b, bc], [ca, bc, c], [ab, bc, ca]]);
    }
    Solid { points, facets }
}

/// The part seen in a mirror square to `x`, its facets turned so that they look outward again.
pub(crate) fn mirrored(solid: &Solid) -> Solid {
    let points = solid.points.iter().map(|p| Point3::new(-p.x, p.y, p.z)).collect();
    Solid { points, facets: solid.facets.clone() }.inside_out()
}

/// Bytes of an STL file of the part, every corner rounded to single precision.
pub(crate) fn stl_of(solid: &Solid) -> Vec<u8> {
    stl::binary(solid)
}

#[test]
fn copies_keep_the_volume() {
    let block = Solid::block([3.0, 2.0, 1.0]);
    let volume = |solid: &Solid| solid.mesh().unwrap().mass_properties().volume;
    let turned = poses(1, 5, 10.0).into_iter().map(|pose| block.clone().moved(&pose));
    let square = square_copies(&block);
    for (turn, copy) in &square {
        let apart = block.points.iter().zip(&copy.points).map(|(p, q)| (turn * p - q).norm());
        assert!(apart.fold(0.0, f64::max) < 1e-14);
    }
    let same = [divided(&block), mirrored(&block), block.clone().shuffled(3)];
    let copies: Vec<Solid> = turned.chain(square.into_iter().map(|(_, copy)| copy)).chain(same).collect();
    assert_eq!(copies.len(), 5 + 24 + 3);
    for copy in &copies {
        approx::assert_relative_eq!(volume(copy), 6.0, max_relative = 1e-12);
    }
    approx::assert_relative_eq!(volume(&block.clone().scaled(2.0)), 48.0, max_relative = 1e-12);
    assert_eq!(divided(&block).facets.len(), 4 * block.facets.len());
}
