use core::f64::consts::{PI, TAU};

use nalgebra::Vector3;

/// `count` unit vectors spread over the sphere so that each stands for the same area: a golden spiral (González 2010,
/// Measurement of areas on a sphere using Fibonacci and latitude-longitude lattices).
pub fn equal_area(count: usize) -> Vec<Vector3<f64>> {
    let golden = PI * (3.0 - 5.0_f64.sqrt());
    (0..count)
        .map(|k| {
            let height = 1.0 - (2.0 * k as f64 + 1.0) / count as f64;
            let radius = (1.0 - height * height).max(0.0).sqrt();
            let turn = golden * k as f64;
            Vector3::new(radius * libm::cos(turn), radius * libm::sin(turn), height)
        })
        .collect()
}

/// Angle between neighbours of [`equal_area`], rad: the side of a square of one direction's share.
pub(super) fn spacing(count: usize) -> f64 {
    (2.0 * TAU / count.max(1) as f64).sqrt()
}

/// `count` unit vectors at an angle (rad) round a unit vector.
pub fn ring(axis: &Vector3<f64>, angle: f64, count: usize) -> Vec<Vector3<f64>> {
    let mut helper = Vector3::zeros();
    helper[axis.iamin()] = 1.0;
    let first = axis.cross(&helper).normalize();
    let second = axis.cross(&first);
    (0..count)
        .map(|k| {
            let turn = TAU * k as f64 / count as f64;
            let across = first * libm::cos(turn) + second * libm::sin(turn);
            (axis * libm::cos(angle) + across * libm::sin(angle)).normalize()
        })
        .collect()
}
