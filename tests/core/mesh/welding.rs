//! Corners of loose facets become shared corners.

use layload_core::LengthUnit;
use layload_core::mesh::Mesh;

use super::shapes::{Solid, motion};
use super::{Tested, files, stl};

/// Corners, edges and facets of a closed surface without handles: Euler's V - E + F = 2.
fn without_handles(mesh: &Mesh) -> bool {
    let facets = mesh.facets().len();
    mesh.points().len() + facets == 2 + facets * 3 / 2
}

#[test]
fn equal_corners_are_joined() -> Tested {
    let (mesh, mended) = Mesh::from_stl(&stl::binary(&Solid::ball(20.0, 24)), LengthUnit::Millimetre)?;
    assert!(without_handles(&mesh));
    assert_eq!(mesh.points().len(), 2 + 23 * 48);
    assert!(!mended.corners_rounded);
    Ok(())
}

#[test]
fn a_rod_has_two_holes_through_it() -> Tested {
    // Each hole is a handle: V - E + F = 2 - 2 * 2.
    let (mesh, _) = Mesh::from_stl(&files::test_mesh("solid_header")?, LengthUnit::Millimetre)?;
    let facets = mesh.facets().len();
    assert_eq!(mesh.points().len() + facets + 2, facets * 3 / 2);
    Ok(())
}

#[test]
fn zeros_of_both_signs_are_joined() -> Tested {
    let facets: Vec<[[f32; 3]; 3]> = Solid::block([1.0; 3])
        .corners()
        .enumerate()
        .map(|(k, corners)| corners.map(|p| p.map(|c| if c == 0.0 && k % 2 == 0 { -0.0 } else { c })))
        .collect();
    let (mesh, mended) = Mesh::from_stl(&stl::binary_of(&facets), LengthUnit::Metre)?;
    assert_eq!((mesh.points().len(), mended.corners_rounded), (8, false));
    Ok(())
}

#[test]
fn every_half_edge_has_its_partner() -> Tested {
    let (mesh, _) = Mesh::from_stl(&files::test_mesh("oil_hole_rod")?, LengthUnit::Millimetre)?;
    let ends = |half_edge: usize| {
        let facet = mesh.facets()[half_edge / 3];
        (facet[half_edge % 3], facet[(half_edge % 3 + 1) % 3])
    };
    for half_edge in 0..3 * mesh.facets().len() {
        let across = mesh.opposite(half_edge);
        assert_eq!(mesh.opposite(across), half_edge);
        let (from, to) = ends(half_edge);
        assert_eq!(ends(across), (to, from));
    }
    Ok(())
}

#[test]
fn corners_apart_in_the_last_digit_are_joined_and_that_is_said() -> Tested {
    let ball = Solid::ball(20.0, 12).moved(&motion([0.1, 0.2, 0.3], [31.0, 17.0, -12.0]));
    let loose: Vec<[[f32; 3]; 3]> = ball
        .corners()
        .enumerate()
        .map(|(k, corners)| if k % 3 == 0 { corners.map(|p| p.map(f32::next_up)) } else { corners })
        .collect();
    let (mesh, mended) = Mesh::from_stl(&stl::binary_of(&loose), LengthUnit::Millimetre)?;
    assert!(mended.corners_rounded);
    assert!(without_handles(&mesh));
    let exact = ball.scaled(1e-3).mesh()?.mass_properties().volume;
    // Corners move by less than 1e-5 of the radius, and volume goes with its cube.
    approx::assert_relative_eq!(mesh.mass_properties().volume, exact, max_relative = 3e-5);
    Ok(())
}
