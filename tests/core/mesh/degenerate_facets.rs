//! Facets that are a line or a point.

use layload_core::LengthUnit;
use layload_core::mesh::{Mesh, MeshError};

use super::shapes::Solid;
use super::{Tested, stl};

#[test]
fn facets_with_equal_corners_are_dropped_and_counted() -> Tested {
    let mut facets: Vec<[[f32; 3]; 3]> = Solid::block([3.0, 2.0, 1.5]).corners().collect();
    let [a, b, c] = facets[4];
    facets.insert(2, [a, a, b]);
    facets.insert(7, [c, b, c]);
    facets.push([a, a, a]);
    let (mesh, mended) = Mesh::from_stl(&stl::binary_of(&facets), LengthUnit::Metre)?;
    assert_eq!((mended.facets_in_file, mended.degenerate_dropped), (15, 3));
    assert_eq!((mesh.facets().len(), mesh.points().len()), (12, 8));
    assert_eq!(mended.holes_capped, 0);
    // Exact: the sums are of small binary fractions.
    assert_eq!(mesh.mass_properties().volume, 9.0);
    Ok(())
}

#[test]
fn facets_without_area_that_close_the_surface_stay() -> Tested {
    // The side between two corners carries a third, so a facet of three corners on a line closes the gap.
    let mut block = Solid::block([4.0, 2.0, 1.0]);
    let [a, b, c] = block.facets[0];
    let middle = nalgebra::center(&block.points[a as usize], &block.points[b as usize]);
    let fresh = block.points.len() as u32;
    block.points.push(middle);
    block.facets[0] = [a, fresh, c];
    block.facets.push([fresh, b, c]);
    block.facets.push([a, b, fresh]);
    let (mesh, mended) = Mesh::from_stl(&stl::binary(&block), LengthUnit::Metre)?;
    assert_eq!((mended.degenerate_dropped, mesh.facets().len()), (0, 14));
    // Exact: the sums are of small binary fractions.
    assert_eq!(mesh.mass_properties().volume, 8.0);
    Ok(())
}

#[test]
fn nothing_but_degenerate_facets() {
    let flat = [[[1.0, 2.0, 3.0]; 3]; 5];
    assert_eq!(Mesh::from_stl(&stl::binary_of(&flat), LengthUnit::Metre).err(), Some(MeshError::Empty));
}
