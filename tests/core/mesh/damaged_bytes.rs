//! Whatever the bytes are, the answer is a mesh or a refusal, never a panic.

use layload_core::LengthUnit;
use layload_core::mesh::{Mesh, MeshError, bodies};
use layload_core::part::{GivenRod, find_rod};
use layload_core::section::{narrowest, planes, sections, slab_moments};
use proptest::prelude::*;

use super::shapes::Solid;
use super::{files, stl};

/// As far as the bytes lead: to a rod and its sections. Says whether it was a mesh.
fn walk(bytes: &[u8]) -> Result<bool, MeshError> {
    let (mesh, mended) = Mesh::from_stl(bytes, LengthUnit::Millimetre)?;
    assert!(mesh.facets().len() <= mended.facets_in_file + 12 * mended.holes_capped);
    let (low, high) = mesh.bounds();
    let at = planes(&mesh, low.x, high.x, 12, true);
    for section in sections(&mesh, &at, true) {
        let _ = narrowest(&section.loops);
    }
    assert_eq!(slab_moments(&mesh, &at).len(), at.len() + 1);
    let _ = find_rod(bodies(mesh)?, &GivenRod::default());
    Ok(true)
}

/// Coordinates and counts that tend to break things.
fn odd_numbers() -> impl Strategy<Value = [u8; 4]> {
    prop_oneof![
        any::<[u8; 4]>(),
        any::<f32>().prop_map(f32::to_le_bytes),
        prop::sample::select(vec![0.0_f32, -0.0, f32::MIN_POSITIVE, 1e-45, 1e7, -1e7, f32::MAX])
            .prop_map(f32::to_le_bytes),
        (0_u32..40).prop_map(u32::to_le_bytes),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn random_bytes(bytes in prop::collection::vec(any::<u8>(), 0..600)) {
        prop_assert!(walk(&bytes).is_err());
    }

    #[test]
    fn random_facets(numbers in prop::collection::vec(-3_i8..3, 0..180)) {
        // Few corners and many facets: every way for edges to meet.
        let facets: Vec<_> = numbers
            .chunks_exact(9)
            .map(|n| [0, 3, 6].map(|k| [n[k], n[k + 1], n[k + 2]].map(f32::from)))
            .collect();
        let _ = walk(&stl::binary_of(&facets));
    }

    #[test]
    fn random_text(words in prop::collection::vec("solid|facet|vertex|vertex 1 2 3|endfacet|outer loop|endsolid|\\PC{0,5}|\n", 0..60)) {
        let _ = walk(format!("solid\n{}", words.join("\n")).as_bytes());
    }

    #[test]
    fn numbers_changed_in_a_binary_file(changes in prop::collection::vec((20_usize..171, odd_numbers()), 1..6)) {
        let mut bytes = stl::binary(&Solid::block([30.0, 20.0, 15.0]));
        for (at, number) in changes {
            let at = (at * 4).min(bytes.len() - 4);
            bytes[at..at + 4].copy_from_slice(&number);
        }
        let _ = walk(&bytes);
    }

    #[test]
    fn bytes_changed_in_a_text_file(changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..8)) {
        let mut bytes = stl::ascii(&Solid::block([30.0, 20.0, 15.0])).into_bytes();
        for (at, byte) in changes {
            let at = at.index(bytes.len());
            bytes[at] = byte;
        }
        let _ = walk(&bytes);
    }
}

proptest! {
    // A whole rod takes longer.
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn a_rod_with_corners_moved(changes in prop::collection::vec((0_usize..2932, 3_usize..12, odd_numbers()), 1..4)) {
        let mut bytes = files::test_mesh("solid_header").map_err(|e| TestCaseError::fail(e.to_string()))?;
        for (facet, word, number) in changes {
            let at = 84 + 50 * facet + 4 * word;
            bytes[at..at + 4].copy_from_slice(&number);
        }
        let _ = walk(&bytes);
    }

    #[test]
    fn a_rod_with_a_corner_dragged_away(corner in any::<prop::sample::Index>(), to in prop::array::uniform3(-200.0_f64..200.0)) {
        let bytes = files::test_mesh("half_bore_no_cap").map_err(|e| TestCaseError::fail(e.to_string()))?;
        let mut rod = Solid::of_stl(&bytes).map_err(|e| TestCaseError::fail(e.to_string()))?;
        let at = corner.index(rod.points.len());
        rod.points[at] = to.into();
        // Still a closed surface, though it may cross itself, and with a far corner may enclose less than nothing.
        let end = walk(&stl::binary(&rod));
        prop_assert!(matches!(end, Ok(true) | Err(MeshError::InsideOut { .. })), "{:?}", end);
    }
}
