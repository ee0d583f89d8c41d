//! Writes STL files, sound and otherwise.

use std::fmt::Write;

use super::shapes::Solid;

/// A binary STL with the normals left at zero, as many exporters do.
pub(crate) fn binary(solid: &Solid) -> Vec<u8> {
    let facets: Vec<_> = solid.corners().collect();
    binary_of(&facets)
}

/// A binary STL of loose facets.
pub(crate) fn binary_of(facets: &[[[f32; 3]; 3]]) -> Vec<u8> {
    let mut bytes = vec![b' '; 80];
    bytes.extend((facets.len() as u32).to_le_bytes());
    for corners in facets {
        bytes.extend([0_u8; 12]);
        bytes.extend(corners.iter().flatten().flat_map(|coordinate| coordinate.to_le_bytes()));
        bytes.extend([0_u8; 2]);
    }
    bytes
}

/// An ASCII STL; `{:e}` writes the shortest digits that read back to the same number.
pub(crate) fn ascii(solid: &Solid) -> String {
    let mut text = String::from("solid made here\n");
    for corners in solid.corners() {
        text.push_str("  facet normal 0 0 0\n    outer loop\n");
        for [x, y, z] in corners {
            let _ = writeln!(text, "      vertex {x:e} {y:e} {z:e}");
        }
        text.push_str("    endloop\n  endfacet\n");
    }
    text.push_str("endsolid made here\n");
    text
}
