//! Pistons are recognised as they were built, rods stay rods, and what is neither is refused with what was found.

use layload_core::Help;
use layload_core::mesh::{Mesh, bodies};
use layload_core::part::{GivenPart, GivenPiston, Part, PartError, PartWord, find_part, find_piston};

use super::Tested;
use super::piston_truth::PistonTruth;
use super::truth::unit;
use crate::mesh::files;

fn part(
    name: &str,
    value: &serde_json::Value,
    given: &GivenPart,
) -> Result<Result<Part, PartError>, Box<dyn std::error::Error>> {
    let (mesh, _) = Mesh::from_stl(&files::bytes(name)?, unit(value))?;
    Ok(find_part(bodies(mesh)?, given))
}

#[test]
fn every_file_is_what_it_is() -> Tested {
    let mut counts = [0; 3];
    for (name, value) in files::truths()?.as_object().ok_or("no files")? {
        let expected = value["expected"].as_str().unwrap_or_default();
        if matches!(expected, "refused" | "rod_after_repair") || name.ends_with("two_rods.stl") {
            continue;
        }
        match (expected, part(name, value, &GivenPart::default())?) {
            ("rod", Ok(Part::Rod(_))) => counts[0] += 1,
            ("piston", Ok(Part::Piston(piston))) => {
                counts[1] += 1;
                let faults = PistonTruth::of(value).faults(&piston);
                assert!(faults.is_empty(), "{name}:\n{}", faults.join("\n"));
            }
            ("not_a_rod", Err(error @ PartError::Neither { .. })) => {
                counts[2] += 1;
                assert_eq!(error.help(), Help::NameEither, "{name}");
            }
            (_, found) => return Err(format!("{name} is {expected}, taken as {found:?}").into()),
        }
    }
    assert!(counts[0] >= 19 && counts[1] >= 7 && counts[2] >= 9, "{counts:?}");
    Ok(())
}

#[test]
fn told_what_it_is() -> Tested {
    let truths = files::truths()?;
    let told = |kind| GivenPart { kind: Some(kind), ..GivenPart::default() };
    let rod = "tests/meshes/solid_header.stl";
    let piston = "tests/meshes/piston.stl";
    assert!(matches!(part(rod, &truths[rod], &told(PartWord::Piston))?, Err(PartError::NotAPiston { .. })));
    assert!(matches!(part(piston, &truths[piston], &told(PartWord::Rod))?, Err(PartError::NotARod { .. })));
    assert!(matches!(part(piston, &truths[piston], &told(PartWord::Piston))?, Ok(Part::Piston(_))));
    Ok(())
}

#[test]
fn what_speaks_against_it_is_said() -> Tested {
    for (name, words) in
        [("cup", "no pin bore crosses"), ("bush", "closed"), ("plug", "both ends"), ("block", "nothing round")]
    {
        let (mesh, _) = Mesh::from_stl(&files::test_mesh(name)?, layload_core::LengthUnit::Millimetre)?;
        let Err(error) = find_piston(bodies(mesh)?, &GivenPiston::default()) else {
            return Err(format!("{name} taken as a piston").into());
        };
        assert!(error.to_string().contains(words), "{name}: {error}");
        assert_eq!(error.help(), Help::NamePiston, "{name}");
    }
    Ok(())
}

#[test]
fn pieces_and_what_lies_beside_are_said() -> Tested {
    let name = "tests/meshes/piston_in_pieces.stl";
    let Ok(Part::Piston(piston)) = part(name, &files::truths()?[name], &GivenPart::default())? else {
        return Err("not a piston".into());
    };
    assert!(piston.overlapping);
    assert_eq!(piston.left_out.len(), 1);
    Ok(())
}
