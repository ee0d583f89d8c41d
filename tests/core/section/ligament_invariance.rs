//! The narrowest place does not depend on where an outline lies, how it is turned, or at which corner it begins.

use layload_core::section::narrowest;
use nalgebra::{Rotation2, Vector2};
use proptest::prelude::*;

fn i_outline(width: f64, height: f64, web: f64, flange: f64) -> Vec<Vector2<f64>> {
    let (a, b, h, i) = (width / 2.0, web / 2.0, height / 2.0, height / 2.0 - flange);
    [[-a, -h], [a, -h], [a, -i], [b, -i], [b, i], [a, i], [a, h], [-a, h], [-a, i], [-b, i], [-b, -i], [-a, -i]]
        .map(Vector2::from)
        .to_vec()
}

proptest! {
    #[test]
    fn i_sections(
        web in 0.0005_f64..0.006,
        flange in 0.0005_f64..0.006,
        angle in -3.2_f64..3.2,
        shift in prop::array::uniform2(-0.1_f64..0.1),
        first in 0_usize..12,
    ) {
        let mut outline = i_outline(0.014, 0.022, web, flange);
        outline.rotate_left(first);
        let turn = Rotation2::new(angle);
        let moved: Vec<Vector2<f64>> = outline.iter().map(|p| turn * p + Vector2::from(shift)).collect();
        let Some(found) = narrowest(&[moved]) else { return Err(TestCaseError::fail("no ligament")) };
        // Rounding at a tenth of a metre, against half a millimetre.
        prop_assert!((found.thickness - web.min(flange)).abs() < 1e-12, "{} is not {}", found.thickness, web.min(flange));
        prop_assert!((found.across.norm() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn more_corners_on_straight_sides(cuts in 1_u32..30) {
        let outline = i_outline(0.014, 0.022, 0.0012, 0.003);
        let fine: Vec<Vector2<f64>> = (0..outline.len())
            .flat_map(|k| {
                let (from, to) = (outline[k], outline[(k + 1) % outline.len()]);
                (0..cuts).map(move |j| from + (to - from) * (f64::from(j) / f64::from(cuts)))
            })
            .collect();
        let found = narrowest(&[fine]).map(|ligament| ligament.thickness);
        prop_assert!(found.is_some_and(|thickness| (thickness - 0.0012).abs() < 1e-12), "{:?}", found);
    }
}
