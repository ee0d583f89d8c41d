//! Solids of the field tests, each with few facets.

use core::f64::consts::TAU;

use layload_core::mesh::Mesh;
use nalgebra::{Isometry3, Point3, Translation3, UnitQuaternion, Vector3};

pub(super) use super::drawn_out::ring;
use super::drawn_out::{between, circle};
use crate::mesh::shapes::Solid;

/// A plate with a round hole.
pub(super) fn holed_plate(half_x: f64, half_y: f64, radius: f64, height: f64) -> Mesh {
    const CORNERS: usize = 240;
    let corner = libm::atan2(half_y, half_x);
    let mut angles: Vec<f64> = (0..CORNERS).map(|k| TAU * k as f64 / CORNERS as f64).collect();
    for wanted in [corner, TAU / 2.0 - corner, TAU / 2.0 + corner, TAU - corner] {
        angles[(wanted / TAU * CORNERS as f64).round() as usize] = wanted;
    }
    let outer: Vec<[f64; 2]> = angles
        .iter()
        .map(|&t| {
            let (c, s) = (libm::cos(t), libm::sin(t));
            let r = (half_x / c.abs()).min(half_y / s.abs());
            [r * c, r * s]
        })
        .collect();
    between(&outer, &circle(radius, CORNERS), height)
}

/// A round plate.
pub(super) fn disc(radius: f64, height: f64, corners: u32) -> Mesh {
    let mut points = vec![Point3::origin(), Point3::new(0.0, 0.0, height)];
    for z in [0.0, height] {
        points.extend(circle(radius, corners as usize).iter().map(|p| Point3::new(p[0], p[1], z)));
    }
    let mut facets = Vec::new();
    for k in 0..corners {
        let (a, b) = (2 + k, 2 + (k + 1) % corners);
        facets.extend([[0, b, a], [1, a + corners, b + corners], [a, b, b + corners], [a, b + corners, a + corners]]);
    }
    Mesh::from_facets(points, facets).unwrap()
}

/// A block with its low corner at the origin.
pub(super) fn block(size: [f64; 3]) -> Mesh {
    Solid::block(size).mesh().unwrap()
}

/// A mesh turned about an axis.
pub(super) fn turned(mesh: Mesh, axis: Vector3<f64>, angle: f64) -> (Mesh, UnitQuaternion<f64>) {
    let rotation = UnitQuaternion::new(axis.normalize() * angle);
    (mesh.moved(&Isometry3::from_parts(Translation3::identity(), rotation)), rotation)
}

/// Facets whose middle and outward normal fit.
pub(super) fn facets(mesh: &Mesh, keep: impl Fn(Point3<f64>, Vector3<f64>) -> bool) -> Vec<usize> {
    (0..mesh.facets().len()).filter(|&f| keep(mesh.middle(f), mesh.area_vector(f).normalize())).collect()
}
