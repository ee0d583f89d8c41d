//! Directions spread over the sphere.

use layload_core::orient::{equal_area, ring};
use nalgebra::Vector3;

#[test]
fn every_direction_stands_for_the_same_area() {
    let all = equal_area(4000);
    assert_eq!(all.len(), 4000);
    assert!(all.iter().all(|d| (d.norm() - 1.0).abs() < 1e-12));
    // Caps round many axes hold their share: of a cap of 40 degrees 11.7 %. A cap's edge passes within half a spacing of
    // some 100 directions, of which about the root falls on the wrong side.
    let cosine = libm::cos(40.0_f64.to_radians());
    let share = (1.0 - cosine) / 2.0 * 4000.0;
    for axis in equal_area(50) {
        let inside = all.iter().filter(|d| d.dot(&axis) > cosine).count() as f64;
        assert!((inside - share).abs() < 12.0, "{inside} instead of {share} round {axis:?}");
    }
}

#[test]
fn a_ring_lies_at_its_angle() {
    let axis = Vector3::new(0.2, -0.9, 0.4).normalize();
    for direction in ring(&axis, 0.3, 7) {
        assert!((libm::acos(direction.dot(&axis)) - 0.3).abs() < 1e-12);
    }
}
