//! Small holes are capped and that is said; large ones are refused with their place.

use layload_core::LengthUnit;
use layload_core::mesh::{Mesh, MeshError, bodies};

use super::shapes::Solid;
use super::{Tested, files, stl};

#[test]
fn two_missing_facets_are_put_back() -> Tested {
    let (mesh, mended) = Mesh::from_stl(&files::test_mesh("small_hole")?, LengthUnit::Millimetre)?;
    assert_eq!((mended.holes_capped, mended.facets_in_file, mesh.facets().len()), (1, 2930, 2932));
    // The same rod without the hole; the hole lies in a flat face, so the cap restores it to rounding.
    let (whole, _) = Mesh::from_stl(&files::test_mesh("far_from_origin")?, LengthUnit::Millimetre)?;
    // Single precision 2500 mm from the origin moves faces by 1e-4 mm of 14 mm.
    let volume = mesh.mass_properties().volume;
    approx::assert_relative_eq!(volume, whole.mass_properties().volume, max_relative = 2e-5);
    assert_eq!(bodies(mesh)?.len(), 1);
    Ok(())
}

#[test]
fn a_cap_faces_outward() -> Tested {
    let mut ball = Solid::ball(20.0, 24);
    let whole = ball.clone().scaled(1e-3).mesh()?.mass_properties().volume;
    let missing = ball.facets.swap_remove(500);
    let (mesh, mended) = Mesh::from_stl(&stl::binary(&ball), LengthUnit::Millimetre)?;
    assert_eq!(mended.holes_capped, 1);
    let centre_of =
        |facet: [u32; 3]| facet.iter().map(|&id| ball.points[id as usize].coords).sum::<nalgebra::Vector3<f64>>();
    let outward = centre_of(missing);
    assert!(mesh.area_vector(mesh.facets().len() - 1).dot(&outward) > 0.0);
    // Single precision of 20 mm: 1e-7, times three.
    approx::assert_relative_eq!(mesh.mass_properties().volume, whole, max_relative = 1e-6);
    Ok(())
}

#[test]
fn several_small_holes() -> Tested {
    let mut ball = Solid::ball(20.0, 24);
    for index in [100, 700, 1500] {
        ball.facets.swap_remove(index);
    }
    let (_, mended) = Mesh::from_stl(&stl::binary(&ball), LengthUnit::Millimetre)?;
    assert_eq!(mended.holes_capped, 3);
    Ok(())
}

#[test]
fn a_patch_of_20_mm_is_refused_with_its_place() -> Tested {
    let refused = Mesh::from_stl(&files::test_mesh("open")?, LengthUnit::Millimetre).err();
    let truth = &files::truths()?["tests/meshes/open.stl"];
    let fault = files::triple(&truth["fault_center_mm"]);
    let Some(MeshError::Open { edges, place }) = refused else { return Err(format!("{refused:?}").into()) };
    assert!(edges > 3);
    let apart = [0, 1, 2].map(|k| place.mm[k] - fault[k]);
    let distance = nalgebra::Vector3::from(apart).norm();
    // The rim lies on the patch's edge or up to a facet beyond it; facets of the shank are 4 mm long.
    assert!(distance < files::number(&truth["fault_diameter_mm"]) / 2.0 + 4.0, "{distance} mm away: {place}");
    Ok(())
}

#[test]
fn a_missing_side_is_no_small_hole() {
    let mut block = Solid::block([30.0, 20.0, 15.0]);
    block.facets.drain(..2);
    let refused = Mesh::from_stl(&stl::binary(&block), LengthUnit::Millimetre).err();
    assert!(matches!(refused, Some(MeshError::Open { .. })), "{refused:?}");
}

#[test]
fn a_lone_facet_is_open() {
    let lone = [[[0.0, 0.0, 0.0], [30.0, 0.0, 0.0], [0.0, 20.0, 0.0]]];
    let refused = Mesh::from_stl(&stl::binary_of(&lone), LengthUnit::Millimetre).err();
    assert!(matches!(refused, Some(MeshError::Open { edges: 3, .. })), "{refused:?}");
}
