//! A part stretched along the pins: its cuts are those of the part as it was, stretched.

use approx::assert_relative_eq;
use layload_core::LengthUnit;
use layload_core::mesh::Mesh;
use layload_core::section::{VolumeMoments, sections, slab_moments};

use super::Tested;
use crate::mesh::files;

#[test]
fn cuts_and_slabs_of_a_rod() -> Tested {
    let (rod, _) = Mesh::from_stl(&files::bytes("samples/i_shank_rod.stl")?, LengthUnit::Millimetre)?;
    let thick = rod.stretched_along_z(|_| 1.1);
    let (low, high) = rod.bounds();
    let planes: Vec<f64> = (1..40).map(|k| low.x + (high.x - low.x) * f64::from(k) / 40.0).collect();
    for (was, now) in sections(&rod, &planes, false).iter().zip(sections(&thick, &planes, false)) {
        let (a, b) = (was.stretched(1.1).properties, now.properties);
        // The same sums of rounded products in another order.
        assert_relative_eq!(a.area, b.area, max_relative = 1e-10);
        assert_relative_eq!(a.second_moment_y, b.second_moment_y, max_relative = 1e-9);
        assert_relative_eq!(a.second_moment_z, b.second_moment_z, max_relative = 1e-9);
        assert!((a.centroid - b.centroid).norm() < 1e-12);
    }
    let whole = |mesh: &Mesh, factor: f64| {
        let slabs = slab_moments(mesh, &planes);
        slabs.iter().fold(VolumeMoments::default(), |sum, slab| sum.plus(&slab.stretched(factor), 1.0))
    };
    let (a, b) = (whole(&rod, 1.1), whole(&thick, 1.0));
    let size = (high - low).norm();
    assert_relative_eq!(a.volume, b.volume, max_relative = 1e-10);
    for k in 0..3 {
        assert_relative_eq!(a.first[k], b.first[k], epsilon = 1e-10 * a.volume * size);
    }
    for (a, b) in [(a.polar, b.polar), (a.xz, b.xz), (a.yz, b.yz)] {
        assert_relative_eq!(a, b, epsilon = 1e-10 * whole(&rod, 1.1).volume * size * size);
    }
    Ok(())
}
