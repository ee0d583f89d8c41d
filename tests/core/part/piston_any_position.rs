//! A piston is recognised alike wherever it lies, however it is turned, and in whatever order its facets come.

use layload_core::LengthUnit;
use layload_core::mesh::{Mesh, bodies};
use layload_core::part::{GivenPart, Part, find_part};
use proptest::prelude::*;

use super::piston_truth::PistonTruth;
use crate::mesh::shapes::{Solid, motion};
use crate::mesh::{files, stl};

fn faults(angles: [f64; 3], shift: [f64; 3], seed: u64) -> Result<Vec<String>, Box<dyn std::error::Error>> {
    let name = "tests/meshes/piston.stl";
    let motion = motion(angles, shift);
    let solid = Solid::of_stl(&files::bytes(name)?)?.moved(&motion).shuffled(seed);
    let (mesh, _) = Mesh::from_stl(&stl::binary(&solid), LengthUnit::Millimetre)?;
    Ok(match find_part(bodies(mesh)?, &GivenPart::default()) {
        Ok(Part::Piston(piston)) => PistonTruth::of(&files::truths()?[name]).moved(&motion).faults(&piston),
        Ok(Part::Rod(_) | Part::Any(_)) => vec!["taken for another part".into()],
        Err(error) => vec![error.to_string()],
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn wherever_it_lies(
        angles in [-3.2..3.2, -1.6..1.6, -3.2..3.2],
        shift in [-300.0..300.0, -300.0..300.0, -300.0..300.0],
        seed in any::<u64>(),
    ) {
        let faults = faults(angles, shift, seed).map_err(|error| TestCaseError::fail(error.to_string()))?;
        prop_assert!(faults.is_empty(), "{}", faults.join("\n"));
    }
}
