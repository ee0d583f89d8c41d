//! Rods that need mending: read right, or refused, never misread.

use layload_core::LengthUnit;
use layload_core::mesh::{Mesh, bodies};
use layload_core::part::{GivenRod, find_rod};

use super::Tested;
use super::truth::Truth;
use crate::mesh::shapes::Solid;
use crate::mesh::{files, stl};

#[test]
fn with_a_small_hole() -> Tested {
    let (mesh, mended) = Mesh::from_stl(&files::test_mesh("small_hole")?, LengthUnit::Millimetre)?;
    assert_eq!(mended.holes_capped, 1);
    let rod = find_rod(bodies(mesh)?, &GivenRod::default())?;
    let faults = Truth::of(&files::truths()?["tests/meshes/small_hole.stl"]).faults(&rod);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    Ok(())
}

#[test]
fn mended_or_refused() -> Tested {
    for name in ["one_flipped_facet", "inside_out"] {
        let truth = Truth::of(&files::truths()?[format!("tests/meshes/{name}.stl")]);
        let original = files::test_mesh(name)?;
        let reordered = (1..4).map(|seed| Ok(stl::binary(&Solid::of_stl(&original)?.shuffled(seed))));
        for bytes in std::iter::once(Ok(original.clone())).chain(reordered) {
            let bytes: Vec<u8> = bytes.map_err(|error: std::io::Error| error)?;
            let Ok((mesh, _)) = Mesh::from_stl(&bytes, LengthUnit::Millimetre) else { continue };
            let Ok(bodies) = bodies(mesh) else { continue };
            let faults = truth.faults(&find_rod(bodies, &GivenRod::default())?);
            assert!(faults.is_empty(), "{name}: {}", faults.join("\n"));
        }
    }
    Ok(())
}
