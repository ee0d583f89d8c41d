//! Binary files whose header, normals or tail are odd, and still plain to read.

use layload_core::LengthUnit;
use layload_core::mesh::Mesh;

use super::shapes::Solid;
use super::{Tested, files, stl};

fn block() -> Vec<u8> {
    stl::binary(&Solid::block([3.0, 2.0, 1.5]))
}

fn same_as_plain(bytes: &[u8]) -> Tested {
    let (plain, _) = Mesh::from_stl(&block(), LengthUnit::Millimetre)?;
    let (mesh, mended) = Mesh::from_stl(bytes, LengthUnit::Millimetre)?;
    assert_eq!(mended.facets_in_file, 12);
    assert_eq!(mesh.points(), plain.points());
    assert_eq!(mesh.facets(), plain.facets());
    Ok(())
}

#[test]
fn header_that_begins_with_solid() -> Tested {
    for header in ["solid block", "SOLID", "  solid x\nfacet normal 0 0 0\n outer loop\n"] {
        let mut bytes = block();
        bytes[..header.len()].copy_from_slice(header.as_bytes());
        same_as_plain(&bytes)?;
    }
    let (mesh, mended) = Mesh::from_stl(&files::test_mesh("solid_header")?, LengthUnit::Millimetre)?;
    assert_eq!((mended.facets_in_file, mesh.facets().len()), (2932, 2932));
    Ok(())
}

#[test]
fn stored_normals_and_attributes_do_not_matter() -> Tested {
    let mut bytes = block();
    for record in bytes[84..].chunks_exact_mut(50) {
        record[..12].fill(0xFF);
        record[48..].fill(0xAB);
    }
    same_as_plain(&bytes)
}

#[test]
fn bytes_after_the_last_facet() -> Tested {
    let mut bytes = block();
    bytes.extend(b"written by a program that adds a note");
    same_as_plain(&bytes)
}

#[test]
fn a_header_of_zeros() -> Tested {
    let mut bytes = block();
    bytes[..80].fill(0);
    same_as_plain(&bytes)
}
