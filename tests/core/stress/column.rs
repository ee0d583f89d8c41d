//! C7: Euler's column and Johnson's parabola.

use core::f64::consts::PI;

use approx::assert_relative_eq;
use layload_core::stress::{Column, critical_load};

fn column(length: f64, end_fixity: f64) -> Column {
    // A 6 mm x 12 mm bar of 2 GPa and 40 MPa.
    let (breadth, height, modulus, strength) = (0.006_f64, 0.012_f64, 2e9, 40e6);
    Column {
        length,
        end_fixity,
        bending_stiffness: modulus * height * breadth * breadth * breadth / 12.0,
        crush_load: strength * breadth * height,
    }
}

/// At the tangent point both give half the crush load, with one slope.
#[test]
fn the_two_curves_touch() {
    let crush = column(1.0, 1.0).crush_load;
    let tangent = PI * (2.0 * column(1.0, 1.0).bending_stiffness / crush).sqrt();
    let at = |length: f64| critical_load(&column(length, 1.0));
    assert_relative_eq!(at(tangent), crush / 2.0, max_relative = 1e-9);
    let step = 1e-6 * tangent;
    let (before, after) = (at(tangent) - at(tangent - step), at(tangent + step) - at(tangent));
    // Slopes over a millionth of the length differ by the curvature over that distance only.
    assert_relative_eq!(before, after, max_relative = 1e-4);
}
