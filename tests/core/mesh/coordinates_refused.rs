//! Coordinates that are no size of a part.

use layload_core::LengthUnit;
use layload_core::mesh::{Mesh, MeshError};

use super::shapes::Solid;
use super::stl;

#[test]
fn not_finite_or_absurdly_large() {
    for bad in [f32::NAN, f32::INFINITY, f32::NEG_INFINITY, 1e30, -2e7] {
        for facet in [0_usize, 7, 11] {
            for coordinate in 0..9 {
                let mut bytes = stl::binary(&Solid::block([3.0, 2.0, 1.5]));
                let at = 84 + 50 * facet + 12 + 4 * coordinate;
                bytes[at..at + 4].copy_from_slice(&bad.to_le_bytes());
                let refused = Mesh::from_stl(&bytes, LengthUnit::Millimetre).err();
                assert_eq!(refused, Some(MeshError::BadCoordinate { facet }), "{bad}");
            }
        }
    }
}

#[test]
fn absurdly_large_in_text() {
    let text = stl::ascii(&Solid::block([3e8, 2.0, 1.5]));
    let refused = Mesh::from_stl(text.as_bytes(), LengthUnit::Millimetre).err();
    assert!(matches!(refused, Some(MeshError::BadCoordinate { .. })), "{refused:?}");
}

#[test]
fn corner_numbers_beyond_the_corners() {
    let block = Solid::block([1.0; 3]);
    let mut facets = block.facets.clone();
    facets[5][1] = 8;
    assert_eq!(Mesh::from_facets(block.points, facets).err(), Some(MeshError::BadCoordinate { facet: 5 }));
}
