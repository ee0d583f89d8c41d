//! The own reader gives the facets that the crate `stl_io` gives, corner for corner and in the same order.

use std::io::Cursor;

use layload_core::LengthUnit;
use layload_core::mesh::Mesh;

use super::shapes::Solid;
use super::{Tested, files, stl};

/// Closed meshes from which nothing is left out, so that facets can be compared one by one.
const SOUND: [&str; 12] = [
    "tests/meshes/solid_header.stl",
    "tests/meshes/overlapping_shells.stl",
    "tests/meshes/loose_bodies.stl",
    "tests/meshes/half_bore_with_cap.stl",
    "tests/meshes/far_from_origin.stl",
    "tests/meshes/inner_void.stl",
    "tests/meshes/inch_rod.stl",
    "tests/meshes/pin.stl",
    "tests/meshes/flange_plate.stl",
    "tests/reference/sections/annulus_tube.stl",
    "samples/plain_rod.stl",
    "samples/bearing_rod.stl",
];

/// Facets as `stl_io` reads them. It takes a file for text when its first line begins with `solid `, so the header of
/// the mesh made to look like text is blanked for it.
fn by_stl_io(bytes: &[u8]) -> std::io::Result<Vec<[[f32; 3]; 3]>> {
    let mut copy = bytes.to_vec();
    if copy.len() > 84 && copy[80..].contains(&0) {
        copy[..80].fill(b' ');
    }
    let mut cursor = Cursor::new(copy);
    stl_io::create_stl_reader(&mut cursor)?.map(|facet| facet.map(|f| f.vertices.map(|v| v.0))).collect()
}

fn compare(name: &str, bytes: &[u8]) -> Tested {
    let (mesh, mended) = Mesh::from_stl(bytes, LengthUnit::Metre).map_err(|e| format!("{name}: {e}"))?;
    let theirs = by_stl_io(bytes)?;
    assert_eq!(mended.facets_in_file, theirs.len(), "{name}");
    assert_eq!(mesh.facets().len(), theirs.len(), "{name}: facets were dropped or added");
    for (index, corners) in theirs.iter().enumerate() {
        let ours = mesh.corners(index).map(|p| [p.x, p.y, p.z]);
        assert_eq!(ours, corners.map(|corner| corner.map(f64::from)), "{name}, facet {index}");
    }
    Ok(())
}

#[test]
fn binary_files() -> Tested {
    for name in SOUND {
        compare(name, &files::bytes(name)?)?;
    }
    Ok(())
}

#[test]
fn the_same_as_text() -> Tested {
    for name in SOUND.iter().filter(|name| !name.starts_with("samples")) {
        compare(name, stl::ascii(&Solid::of_stl(&files::bytes(name)?)?).as_bytes())?;
    }
    Ok(())
}
