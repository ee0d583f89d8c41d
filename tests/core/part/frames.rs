//! Frames turn file coordinates into those of the part and back.

use layload_core::part::Frame;
use nalgebra::{Point3, Vector3};
use proptest::prelude::*;

#[test]
fn parallel_directions_make_no_frame() {
    let origin = Point3::origin();
    for (toward, axis) in [
        (Vector3::z(), Vector3::z()),
        (Vector3::zeros(), Vector3::z()),
        (Vector3::x(), Vector3::zeros()),
        (Vector3::x() * f64::NAN, Vector3::z()),
        (Vector3::x(), Vector3::z() * f64::INFINITY),
    ] {
        assert_eq!(Frame::new(origin, toward, axis), None, "{toward} {axis}");
    }
}

proptest! {
    #[test]
    fn there_and_back(numbers in prop::array::uniform12(-1.0_f64..1.0)) {
        let vector = |k: usize| Vector3::new(numbers[k], numbers[k + 1], numbers[k + 2]);
        let (toward, axis) = (vector(0), vector(3));
        // Directions less than 6 degrees apart lose digits by it.
        prop_assume!(toward.cross(&axis).norm() > 0.1 * toward.norm() * axis.norm());
        let Some(frame) = Frame::new(Point3::from(vector(6)), toward, axis) else {
            return Err(TestCaseError::fail("no frame"));
        };
        let point = Point3::from(vector(9));
        // Rounding of products of numbers near one, grown tenfold by the angle.
        prop_assert!((frame.to_file(&frame.point(&point)) - point).norm() < 1e-13);
        prop_assert!((frame.motion() * point - frame.point(&point)).norm() < 1e-13);
        let seen = frame.direction(&axis);
        prop_assert!(seen.xy().norm() < 1e-13 && seen.z > 0.0);
        prop_assert!(frame.direction(&toward).y.abs() < 1e-13 && frame.direction(&toward).x > 0.0);
        prop_assert!((frame.rows().determinant() - 1.0).abs() < 1e-13);
    }
}
