//! The parts of a recognised rod fit together.

use layload_core::LengthUnit;

use super::{Tested, recognised};
use crate::mesh::files;

#[test]
fn the_mesh_lies_in_the_frame() -> Tested {
    for name in ["samples/i_shank_rod.stl", "tests/meshes/far_from_origin.stl", "samples/split_rod.stl"] {
        let rod = recognised(&files::bytes(name)?, LengthUnit::Millimetre)??;
        // The small end is the origin, the big end on the x axis but for a shift along the pins.
        assert!(rod.small_end.center.coords.norm() < 1e-12);
        assert!(rod.big_end.center.y.abs() < 1e-12);
        // Exact: one is defined as the other.
        assert_eq!(rod.big_end.center.x, rod.center_distance);
        assert!(rod.small_end.radius() < rod.big_end.radius());
        for eye in [&rod.small_end, &rod.big_end] {
            let back = rod.frame.to_file(&eye.center);
            assert!((back - eye.bore.center).norm() < 1e-12);
            // The bore is empty: no corner lies well within it over the depth of the seat.
            let within = rod.mesh.points().iter().filter(|p| {
                let from = *p - eye.center;
                from.xy().norm() < 0.9 * eye.radius() && from.z.abs() < eye.depth() / 2.0
            });
            assert_eq!(within.count(), 0, "{name}");
        }
        // The wall lies on the x axis beyond both bores, and so does the shank.
        let (low, high) = rod.mesh.bounds();
        assert!(low.x < -rod.small_end.radius() && high.x > rod.center_distance + rod.big_end.radius());
    }
    Ok(())
}
