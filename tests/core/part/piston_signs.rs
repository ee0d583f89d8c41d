//! A piston is read by its hollow, its bosses and what guides it, not by marks that happen to be larger; where signs do not
//! agree that is said.

use layload_core::mesh::{Mesh, bodies};
use layload_core::part::{GivenPiston, PartError, Piston, find_piston};
use layload_core::{Help, LengthUnit};
use nalgebra::{Isometry3, Vector3};

use super::Tested;
use super::piston_truth::PistonTruth;
use crate::copies::{divided, poses, square_copies, stl_of};
use crate::mesh::files;
use crate::mesh::shapes::Solid;

fn found(solid: &Solid, given: &GivenPiston) -> Result<Result<Piston, PartError>, Box<dyn std::error::Error>> {
    let (mesh, _) = Mesh::from_stl(&stl_of(solid), LengthUnit::Millimetre)?;
    Ok(find_piston(bodies(mesh)?, given))
}

/// A copy with the motion that made it.
type Copied = (Isometry3<f64>, Solid);

/// Copies of a file's solid.
fn copies(name: &str) -> Result<Vec<Copied>, Box<dyn std::error::Error>> {
    let solid = Solid::of_stl(&files::bytes(name)?)?;
    let turned = poses(11, 50, 200.0).into_iter().map(|pose| (pose, solid.clone().moved(&pose)));
    let still = [divided(&solid), solid.clone().shuffled(5)].map(|copy| (Isometry3::identity(), copy));
    Ok(turned.chain(square_copies(&solid)).chain(still).collect())
}

#[test]
fn every_copy_of_a_piston_reads_alike() -> Tested {
    for name in ["samples/flat_crown_piston.stl", "samples/thin_crown_piston.stl", "samples/plate_crown_piston.stl"] {
        let truth = &files::truths()?[name];
        for (number, (motion, copy)) in copies(name)?.into_iter().enumerate().filter(|(number, _)| number % 3 == 0) {
            let piston =
                found(&copy, &GivenPiston::default())?.map_err(|error| format!("{name}, {number}: {error}"))?;
            let faults = PistonTruth::of(truth).moved(&motion).faults(&piston);
            assert!(faults.is_empty() && piston.doubts.is_empty(), "{name}, copy {number}:\n{}", faults.join("\n"));
        }
    }
    Ok(())
}

#[test]
fn grooves_at_the_open_end_are_asked_about_in_any_pose() -> Tested {
    for (number, (motion, copy)) in copies("tests/meshes/holder.stl")?.into_iter().enumerate() {
        let Err(error) = found(&copy, &GivenPiston::default())? else {
            return Err(format!("copy {number} taken as a piston").into());
        };
        assert!(error.to_string().contains("ring grooves lie at the open end"), "copy {number}: {error}");
        assert_eq!(error.help(), Help::NamePiston);
        // Named, it is taken as named.
        let given = GivenPiston { crown_direction: Some(motion * -Vector3::z()), ..GivenPiston::default() };
        let piston = found(&copy, &given)?.map_err(|error| format!("copy {number}: {error}"))?;
        assert!((piston.compression_height - 18e-3).abs() < 5e-5 && piston.grooves.is_empty(), "copy {number}");
        assert_eq!(piston.skirt_grooves.len(), 2);
    }
    Ok(())
}

#[test]
fn what_is_solid_is_no_piston() -> Tested {
    let solid = Solid::of_stl(&files::test_mesh("plug")?)?;
    let Err(error) = found(&solid, &GivenPiston::default())? else { return Err("a plug taken as a piston".into()) };
    assert!(error.to_string().contains("it is solid, or closed at both ends"), "{error}");
    Ok(())
}
