//! Bodies drawn out along z from 0, for tests, the bench and the convergence example alike.

use std::f64::consts::TAU;

use layload_core::mesh::Mesh;
use nalgebra::Point3;

/// A circle with so many corners.
pub(crate) fn circle(radius: f64, corners: usize) -> Vec<[f64; 2]> {
    let angle = |k: usize| TAU * k as f64 / corners as f64;
    (0..corners).map(|k| [radius * libm::cos(angle(k)), radius * libm::sin(angle(k))]).collect()
}

/// A body between two outlines with as many corners.
pub(crate) fn between(outer: &[[f64; 2]], inner: &[[f64; 2]], height: f64) -> Mesh {
    let n = outer.len() as u32;
    let mut points = Vec::new();
    for z in [0.0, height] {
        points.extend(outer.iter().chain(inner).map(|p| Point3::new(p[0], p[1], z)));
    }
    let mut facets = Vec::new();
    let mut quad = |a: u32, b: u32, c: u32, d: u32| facets.extend([[a, b, c], [a, c, d]]);
    for k in 0..n {
        let l = (k + 1) % n;
        let (top, hole) = (2 * n, n);
        quad(k, hole + k, hole + l, l);
        quad(top + k, top + l, top + hole + l, top + hole + k);
        quad(k, l, top + l, top + k);
        quad(hole + k, top + hole + k, top + hole + l, hole + l);
    }
    Mesh::from_facets(points, facets).unwrap()
}

/// A body between two circles.
pub(crate) fn ring(outer: f64, inner: f64, height: f64, corners: usize) -> Mesh {
    between(&circle(outer, corners), &circle(inner, corners), height)
}
