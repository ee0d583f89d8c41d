//! The rod is picked from a file of several bodies and the rest is named; two rods are not chosen between.

use layload_core::LengthUnit;
use layload_core::part::PartError;

use super::truth::Truth;
use super::{Tested, recognised};
use crate::mesh::shapes::{Solid, motion};
use crate::mesh::{files, stl};

#[test]
fn loose_bodies_are_named() -> Tested {
    let bytes = files::test_mesh("loose_bodies")?;
    let rod = recognised(&bytes, LengthUnit::Millimetre)??;
    let faults = Truth::of(&files::truths()?["tests/meshes/loose_bodies.stl"]).faults(&rod);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert_eq!(rod.left_out.len(), 2);
    let whole = Solid::of_stl(&bytes)?.scaled(1e-3).mesh()?.mass_properties();
    let parts = rod.mesh.mass_properties().volume + rod.left_out.iter().map(|body| body.volume).sum::<f64>();
    // The same facets summed in two ways: rounding.
    approx::assert_relative_eq!(parts, whole.volume, max_relative = 1e-12);
    let (low, high) = rod.mesh.bounds();
    for body in &rod.left_out {
        assert!(body.volume > 0.0 && body.volume < rod.mesh.mass_properties().volume);
        let place = rod.frame.point(&(nalgebra::Point3::from(body.place.mm) * 1e-3));
        let inside = (0..3).all(|k| low[k] < place[k] && place[k] < high[k]);
        assert!(!inside, "named at {}, which is within the rod", body.place);
    }
    Ok(())
}

#[test]
fn a_body_larger_than_the_rod() -> Tested {
    let rod = Solid::of_stl(&files::test_mesh("far_from_origin")?)?.moved(&motion([0.0; 3], [-2500.0, 1800.0, -900.0]));
    for size in [60.0, 150.0] {
        let plate = Solid::block([size, size, 40.0]).moved(&motion([0.0; 3], [0.0, 0.0, -80.0]));
        let found = recognised(&stl::binary(&rod.clone().with(&plate)), LengthUnit::Millimetre)?
            .map_err(|error| format!("beside a plate of {size} mm: {error}"))?;
        assert_eq!(found.left_out.len(), 1);
        // Within what is asked of the centre distance.
        assert!((found.center_distance - 0.090).abs() < 5e-5);
    }
    Ok(())
}

#[test]
fn two_rods() -> Tested {
    let error = recognised(&files::test_mesh("two_rods")?, LengthUnit::Millimetre)?.err();
    assert_eq!(error, Some(PartError::SeveralRods { count: 2 }));
    assert!(error.is_some_and(|error| error.to_string().contains("2 connecting rods")));
    Ok(())
}
