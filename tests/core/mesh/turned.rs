//! Facets the wrong way round are turned.

use layload_core::LengthUnit;
use layload_core::mesh::{Mesh, MeshError, bodies};
use proptest::prelude::*;

use super::shapes::{Solid, motion};
use super::{Tested, files, stl};

fn turn(solid: &mut Solid, facets: impl IntoIterator<Item = usize>) -> usize {
    facets.into_iter().map(|facet| solid.facets[facet].swap(0, 1)).count()
}

#[test]
fn one_facet_of_a_rod() -> Tested {
    let (mesh, mended) = Mesh::from_stl(&files::test_mesh("one_flipped_facet")?, LengthUnit::Millimetre)?;
    assert_eq!((mended.facets_turned, mended.holes_capped), (1, 0));
    let (right, _) = Mesh::from_stl(&files::test_mesh("inside_out")?, LengthUnit::Millimetre)?;
    // The same corners, so the same volume to rounding.
    let (volume, right) = (mesh.mass_properties().volume, -right.mass_properties().volume);
    approx::assert_relative_eq!(volume, right, max_relative = 1e-12);
    Ok(())
}

#[test]
fn some_of_two_bodies_beside_a_hole() -> Tested {
    let whole = Solid::ball(10.0, 10).with(&Solid::block([10.0; 3]).moved(&motion([0.0; 3], [80.0, 0.0, 0.0])));
    let mut both = whole.clone();
    both.facets.remove(5);
    let turned = turn(&mut both, [4, 6, 100, 360, 361]);
    let (mesh, mended) = Mesh::from_stl(&stl::binary(&both), LengthUnit::Millimetre)?;
    assert_eq!((mended.facets_turned, mended.holes_capped), (turned, 1));
    // Corners are written in single precision.
    let right = whole.scaled(1e-3).mesh()?.mass_properties().volume;
    approx::assert_relative_eq!(mesh.mass_properties().volume, right, max_relative = 1e-6);
    assert_eq!(bodies(mesh)?.len(), 2);
    Ok(())
}

/// Of more than half the facets nobody can say that they are the wrong ones: the part is then inside out, and refused.
#[test]
fn most_facets_of_a_body() {
    let mut block = Solid::block([30.0, 20.0, 15.0]);
    turn(&mut block, 0..8);
    let read = Mesh::from_stl(&stl::binary(&block), LengthUnit::Millimetre);
    let refused = read.and_then(|(mesh, mended)| {
        assert_eq!(mended.facets_turned, 4);
        bodies(mesh)
    });
    assert!(matches!(refused, Err(MeshError::InsideOut { .. })), "{refused:?}");
}

proptest! {
    #[test]
    fn fewer_than_half_of_any_ball(wrong in prop::collection::btree_set(0_usize..360, 1..179)) {
        let (mut ball, count) = (Solid::ball(0.02, 10), wrong.len());
        let right = ball.mesh()?.mass_properties().volume;
        prop_assert_eq!(ball.facets.len(), 360);
        turn(&mut ball, wrong);
        let (mesh, mended) = Mesh::from_stl(&stl::binary(&ball), LengthUnit::Metre)?;
        prop_assert_eq!(mended.facets_turned, count);
        // Corners are written in single precision.
        approx::assert_relative_eq!(mesh.mass_properties().volume, right, max_relative = 1e-5);
    }
}
