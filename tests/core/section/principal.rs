//! Principal second moments do not depend on how the section is turned.

use layload_core::section::AreaProperties;
use nalgebra::{Rotation2, Vector2};
use proptest::prelude::*;

proptest! {
    #[test]
    fn turned_rectangle(width in 0.001_f64..0.05, height in 0.001_f64..0.05, angle in -3.2_f64..3.2, y in -0.1_f64..0.1, z in -0.1_f64..0.1) {
        let (a, b) = (width / 2.0, height / 2.0);
        let turn = Rotation2::new(angle);
        let ring: Vec<Vector2<f64>> = [[-a, -b], [a, -b], [a, b], [-a, b]]
            .map(|corner| turn * Vector2::from(corner) + Vector2::new(y, z))
            .to_vec();
        let found = AreaProperties::of(&[ring]);
        let (least, greatest) = found.principal();
        let (one, other) = (width * height * height * height / 12.0, height * width * width * width / 12.0);
        // Rounding of sums over four corners, on the scale of the greater moment.
        prop_assert!((found.area / (width * height) - 1.0).abs() < 1e-12);
        prop_assert!((least - one.min(other)).abs() < 1e-12 * one.max(other));
        prop_assert!((greatest - one.max(other)).abs() < 1e-12 * one.max(other));
        prop_assert!((found.centroid - Vector2::new(y, z)).norm() < 1e-14);
        // The product moment turns with twice the angle: about the y axis of the rectangle it is zero.
        let product = (other - one) / 2.0 * libm::sin(2.0 * angle);
        prop_assert!((found.product_moment - product).abs() < 1e-12 * one.max(other));
    }

    #[test]
    fn regions_put_together(split in 0.1_f64..0.9, weight in prop::sample::select(vec![1.0, -1.0])) {
        // A rectangle and its two parts.
        let part = |from: f64, to: f64| AreaProperties::of(&[vec![
            Vector2::new(from, 0.0), Vector2::new(to, 0.0), Vector2::new(to, 0.3), Vector2::new(from, 0.3),
        ]]);
        let (whole, left, right) = (part(0.0, 1.0), part(0.0, split), part(split, 1.0));
        let (sum, expected) = if weight > 0.0 { (left.with(&right, 1.0), whole) } else { (whole.with(&right, -1.0), left) };
        // Rounding on the scale of the whole.
        prop_assert!((sum.area - expected.area).abs() < 1e-13);
        prop_assert!((sum.centroid - expected.centroid).norm() < 1e-12);
        prop_assert!((sum.second_moment_y - expected.second_moment_y).abs() < 1e-13);
        prop_assert!((sum.second_moment_z - expected.second_moment_z).abs() < 1e-13);
        prop_assert!((sum.product_moment - expected.product_moment).abs() < 1e-13);
    }
}
