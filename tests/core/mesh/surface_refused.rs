//! Surfaces that bound no solid, each refused with its place.

use layload_core::LengthUnit;
use layload_core::mesh::{Mesh, MeshError, Place, bodies};

use super::shapes::{Solid, motion};
use super::{Tested, files, stl};

fn refused(bytes: &[u8]) -> Option<MeshError> {
    match Mesh::from_stl(bytes, LengthUnit::Millimetre) {
        Ok((mesh, _)) => bodies(mesh).err(),
        Err(error) => Some(error),
    }
}

fn near(place: &Place, mm: [f64; 3], reach: f64) -> bool {
    nalgebra::Vector3::from([0, 1, 2].map(|k| place.mm[k] - mm[k])).norm() <= reach
}

/// The file's own fault, in mm.
fn fault(name: &str) -> std::io::Result<[f64; 3]> {
    Ok(files::triple(&files::truths()?[format!("tests/meshes/{name}.stl")]["fault_center_mm"]))
}

#[test]
fn a_fin_of_one_facet() -> Tested {
    let error = refused(&files::test_mesh("fin")?);
    // Three facets meet at the fin's root; its other two edges have no second facet. Either may be named.
    let place = match &error {
        Some(MeshError::NonManifold { place, .. } | MeshError::Open { place, .. }) => *place,
        _ => return Err(format!("{error:?}").into()),
    };
    // One end of an edge of the facet: the facets of the shank are 4 mm long.
    assert!(near(&place, fault("fin")?, 6.0), "{place}");
    Ok(())
}

#[test]
fn two_blocks_that_share_an_edge() -> Tested {
    let bytes = files::test_mesh("non_manifold")?;
    let error = refused(&bytes);
    let Some(MeshError::NonManifold { place, .. }) = &error else { return Err(format!("{error:?}").into()) };
    // One end of the shared edge, which is 20 mm long with its middle at the fault.
    assert!(near(place, fault("non_manifold")?, 10.1), "{place}");
    Ok(())
}

#[test]
fn a_facet_there_twice() {
    let mut block = Solid::block([30.0, 20.0, 15.0]);
    block.facets.push(block.facets[3]);
    assert!(matches!(refused(&stl::binary(&block)), Some(MeshError::NonManifold { .. })));
}

#[test]
fn inside_out() -> Tested {
    let error = refused(&files::test_mesh("inside_out")?);
    let Some(MeshError::InsideOut { volume_mm3 }) = error else { return Err(format!("{error:?}").into()) };
    let (right, _) = Mesh::from_stl(&files::test_mesh("solid_header")?, LengthUnit::Millimetre)?;
    // The same rod in another place, to single precision.
    approx::assert_relative_eq!(volume_mm3, -right.mass_properties().volume * 1e9, max_relative = 1e-5);
    Ok(())
}

#[test]
fn one_of_two_bodies_inside_out() {
    let good = Solid::block([30.0, 20.0, 15.0]);
    let bad = Solid::block([10.0; 3]).moved(&motion([0.0; 3], [80.0, 0.0, 0.0])).inside_out();
    let error = refused(&stl::binary(&good.with(&bad)));
    assert!(matches!(error, Some(MeshError::InsideOut { .. })), "{error:?}");
}

#[test]
fn a_surface_with_one_side() {
    // A band of eight pieces with a half turn, and a fan over its one rim: closed, but with no inside.
    let rim = |k: u32, up: bool| {
        let round = f64::from(k) / 8.0 * core::f64::consts::TAU;
        let lean = round / 2.0 + if up { 0.0 } else { core::f64::consts::PI };
        let out = 30.0 + 5.0 * libm::cos(lean);
        nalgebra::Point3::new(out * libm::cos(round), out * libm::sin(round), 5.0 * libm::sin(lean))
    };
    // Once round, upper and lower rim have changed places.
    let at = |k: u32, up: bool| if (k / 8).is_multiple_of(2) == up { k % 8 } else { k % 8 + 8 };
    let mut solid = Solid { points: (0..16).map(|k| rim(k % 8, k < 8)).collect(), facets: Vec::new() };
    for k in 0..8 {
        let [a, b, c, d] = [at(k, true), at(k + 1, true), at(k, false), at(k + 1, false)];
        solid.facets.extend([[a, c, b], [b, c, d]]);
    }
    solid.points.push(nalgebra::Point3::new(0.0, 0.0, 80.0));
    for k in 0..16 {
        solid.facets.push([at(k, true), at(k + 1, true), 16]);
    }
    assert!(matches!(refused(&stl::binary(&solid)), Some(MeshError::NonManifold { .. })));
}

#[test]
fn a_sheet_encloses_nothing() {
    for turn in [[0.0; 3], [0.3, 0.7, 1.1], [1.0, 0.2, 2.4]] {
        let sheet = Solid {
            points: [[0.0, 0.0, 0.0], [40.0, 0.0, 0.0], [40.0, 30.0, 0.0], [0.0, 30.0, 0.0]].map(Into::into).to_vec(),
            // Its two sides are cut along different diagonals, so that no edge has four facets.
            facets: vec![[0, 1, 2], [0, 2, 3], [0, 3, 1], [3, 2, 1]],
        };
        let error = refused(&stl::binary(&sheet.moved(&motion(turn, [5.0, 6.0, 7.0]))));
        assert_eq!(error, Some(MeshError::NoVolume), "turned by {turn:?}");
    }
}
