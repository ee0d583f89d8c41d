//! C17: volume, centroid and inertia of solids whose facets are their surface, against closed forms.
//!
//! Box and I-beam: any handbook of mechanics. Polygonal prisms: a regular polygon of n corners on a circle of radius r has
//! the area n/2 r² sin(2π/n) and the second moment n/24 r⁴ sin(2π/n) (2 + cos(2π/n)) about any axis through its centre.

use core::f64::consts::TAU;

use approx::assert_relative_eq;
use layload_core::mesh::MassProperties;
use nalgebra::{Matrix3, Point3, Vector3};

use super::Tested;
use super::shapes::{Region, Solid, motion};

/// Tolerance of row C17, relative to the volume, the size, and the trace of the inertia.
const C17: f64 = 1e-9;

/// Area and second moment of a regular polygon.
pub(crate) fn polygon(radius: f64, corners: f64) -> (f64, f64) {
    let turn = TAU / corners;
    let square = radius * radius;
    let area = corners / 2.0 * square * libm::sin(turn);
    (area, corners / 24.0 * square * square * libm::sin(turn) * (2.0 + libm::cos(turn)))
}

fn compare(found: &MassProperties, volume: f64, centroid: Point3<f64>, inertia: &Matrix3<f64>, size: f64) {
    assert_relative_eq!(found.volume, volume, max_relative = C17);
    assert!((found.centroid - centroid).norm() < C17 * size, "{} is not {centroid}", found.centroid);
    assert!((found.inertia() - inertia).norm() < C17 * inertia.trace(), "{} is not {inertia}", found.inertia());
}

/// Measures a solid in its own place, and turned and far away.
fn measured(solid: &Solid, volume: f64, centroid: Point3<f64>, inertia: Vector3<f64>, size: f64) -> Tested {
    let inertia = Matrix3::from_diagonal(&inertia);
    compare(&solid.mesh()?.mass_properties(), volume, centroid, &inertia, size);
    let motion = motion([0.4, -1.2, 2.2], [3.0, -2.0, 1.0]);
    let turn = motion.rotation.to_rotation_matrix();
    let turned = turn.matrix() * inertia * turn.matrix().transpose();
    let moved = solid.clone().moved(&motion).mesh()?.mass_properties();
    compare(&moved, volume, motion * centroid, &turned, size);
    Ok(())
}

#[test]
fn box_of_three_sizes() -> Tested {
    let (a, b, c) = (0.06, 0.02, 0.012);
    let volume = a * b * c;
    let inertia = Vector3::new(b * b + c * c, a * a + c * c, a * a + b * b) * (volume / 12.0);
    let centroid = Point3::new(a / 2.0, b / 2.0, c / 2.0);
    measured(&Solid::block([a, b, c]), volume, centroid, inertia, a)
}

#[test]
fn polygonal_cylinder() -> Tested {
    let (radius, length) = (0.009, 0.05);
    let (area, second) = polygon(radius, 64.0);
    let volume = area * length;
    let across = second * length + volume * length * length / 12.0;
    let solid = Solid::prism(&Region::ellipse(radius, radius, 64), -length / 2.0, length / 2.0);
    measured(&solid, volume, Point3::origin(), Vector3::new(2.0 * second * length, across, across), length)
}

#[test]
fn polygonal_tube() -> Tested {
    let (outer, inner, length) = (0.012, 0.008, 0.03);
    let ((area, second), (area_in, second_in)) = (polygon(outer, 96.0), polygon(inner, 96.0));
    let (area, second) = (area - area_in, second - second_in);
    let volume = area * length;
    let across = second * length + volume * length * length / 12.0;
    let solid = Solid::prism(&Region::annulus(outer, inner, 0.0, 96), -length / 2.0, length / 2.0);
    measured(&solid, volume, Point3::origin(), Vector3::new(2.0 * second * length, across, across), length)
}

#[test]
fn box_with_a_box_cut_out() -> Tested {
    let outer = Solid::block([0.04; 3]).moved(&motion([0.0; 3], [-0.02; 3]));
    let inner = Solid::block([0.02; 3]).moved(&motion([0.0; 3], [-0.01; 3])).inside_out();
    let volume = 0.04_f64 * 0.04 * 0.04 - 0.02 * 0.02 * 0.02;
    let cube = |side: f64| side * side * side * side * side / 6.0;
    let inertia = Vector3::repeat(cube(0.04) - cube(0.02));
    measured(&outer.with(&inner), volume, Point3::origin(), inertia, 0.04)
}

#[test]
fn inward_facets_give_the_negative() -> Tested {
    let block = Solid::block([0.03, 0.02, 0.01]);
    let (out, inward) = (block.mesh()?.mass_properties(), block.inside_out().mesh()?.mass_properties());
    assert_relative_eq!(inward.volume, -out.volume, max_relative = 1e-15);
    assert_relative_eq!(inward.centroid, out.centroid, max_relative = 1e-12);
    Ok(())
}
