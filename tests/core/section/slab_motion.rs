//! Slab integrals hold however the solid lies.

use layload_core::section::{VolumeMoments, slab_moments};
use proptest::prelude::*;

use crate::mesh::shapes::{Region, Solid, motion};

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn any_position_and_order(
        angles in prop::array::uniform3(-3.15_f64..3.15),
        shift in prop::array::uniform3(-0.1_f64..0.1),
        cuts in prop::collection::vec(-0.15_f64..0.15, 0..9),
        seed in any::<u64>(),
    ) {
        let beam = Solid::prism(&Region::i_section(0.014, 0.022, 0.0035, 0.0035), 0.0, 0.09);
        let fail = |e: layload_core::mesh::MeshError| TestCaseError::fail(e.to_string());
        let mesh = beam.moved(&motion(angles, shift)).shuffled(seed).mesh().map_err(fail)?;
        let mut planes = cuts;
        planes.sort_by(f64::total_cmp);
        let slabs = slab_moments(&mesh, &planes);
        prop_assert_eq!(slabs.len(), planes.len() + 1);
        // A slab holds no negative volume; rounding is of the surface's integrals, 1e-6 m³ by size.
        prop_assert!(slabs.iter().all(|slab| slab.volume > -1e-20), "{:?}", slabs);
        let sum = slabs.iter().fold(VolumeMoments::default(), |sum, slab| sum.plus(slab, 1.0));
        let mass = mesh.mass_properties();
        let (c, m, v) = (mass.centroid, mass.second_moments, mass.volume);
        let polar = m[(0, 0)] + m[(1, 1)] + v * (c.x * c.x + c.y * c.y);
        // Rounding on the scale of the volume and of 0.3 m, the farthest a corner can be.
        prop_assert!((sum.volume / v - 1.0).abs() < 1e-12);
        prop_assert!((0..3).all(|k| (sum.first[k] - v * c[k]).abs() < 1e-12 * v * 0.3));
        prop_assert!((sum.polar - polar).abs() < 1e-12 * v * 0.09);
        prop_assert!((sum.xz - m[(0, 2)] - v * c.x * c.z).abs() < 1e-12 * v * 0.09);
        prop_assert!((sum.yz - m[(1, 2)] - v * c.y * c.z).abs() < 1e-12 * v * 0.09);
    }
}
