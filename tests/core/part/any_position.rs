//! A rod is recognised alike wherever it lies, however it is turned, and in whatever order its facets come.

use std::io;

use layload_core::LengthUnit;
use layload_core::part::PartError;
use proptest::prelude::*;

use super::recognised;
use super::truth::Truth;
use crate::mesh::shapes::{Solid, motion};
use crate::mesh::{files, stl};

/// Rods in mm of a few thousand facets, one of each kind.
const RODS: [&str; 8] = [
    "tests/meshes/solid_header.stl",
    "tests/meshes/overlapping_shells.stl",
    "tests/meshes/half_bore_no_cap.stl",
    "tests/meshes/half_bore_with_cap.stl",
    "tests/meshes/unequal_depths.stl",
    "tests/meshes/counterbored.stl",
    "tests/meshes/slotted_small_end.stl",
    "tests/meshes/oil_hole_rod.stl",
];

/// What is wrong with the rod of a file after a motion in mm and a new order of facets.
fn faults(name: &str, angles: [f64; 3], shift: [f64; 3], seed: u64) -> io::Result<Vec<String>> {
    let motion = motion(angles, shift);
    let solid = Solid::of_stl(&files::bytes(name)?)?.moved(&motion).shuffled(seed);
    Ok(match recognised(&stl::binary(&solid), LengthUnit::Millimetre) {
        Ok(Ok(rod)) => Truth::of(&files::truths()?[name]).moved(&motion).faults(&rod),
        Ok(Err(error)) => vec![error.to_string()],
        Err(error) => vec![error.to_string()],
    })
}

#[test]
fn walls_of_a_slot_are_no_bore() -> super::Tested {
    // In this position the two faces of the oil slot, half a circle each as seen from between them, once passed for a bore.
    let (angles, shift) = ([0.0, 1.479_585_671_757_701_2, 0.963_657_573_776_957], [0.0, -285.075_176_463_811_94, 0.0]);
    let faults = faults("tests/meshes/slotted_small_end.stl", angles, shift, 8_784_511_430_319_260_868)?;
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn small_files(
        name in prop::sample::select(&RODS[..]),
        // Euler angles that reach every rotation.
        angles in (-3.15_f64..3.15, -1.58_f64..1.58, -3.15_f64..3.15),
        shift in prop::array::uniform3(-500.0_f64..500.0),
        seed in any::<u64>(),
    ) {
        let faults = faults(name, angles.into(), shift, seed).map_err(|e| TestCaseError::fail(e.to_string()))?;
        prop_assert!(faults.is_empty(), "{}: {}", name, faults.join("\n"));
    }
}

proptest! {
    // Each sample has some 40 000 facets.
    #![proptest_config(ProptestConfig::with_cases(10))]

    #[test]
    fn samples(
        name in prop::sample::select(vec!["plain_rod", "i_shank_rod", "thin_web_rod", "bearing_rod", "split_rod"]),
        angles in (-3.15_f64..3.15, -1.58_f64..1.58, -3.15_f64..3.15),
        shift in prop::array::uniform3(-500.0_f64..500.0),
        seed in any::<u64>(),
    ) {
        let name = format!("samples/{name}.stl");
        let faults = faults(&name, angles.into(), shift, seed).map_err(|e| TestCaseError::fail(e.to_string()))?;
        prop_assert!(faults.is_empty(), "{}: {}", name, faults.join("\n"));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn other_parts_are_no_rods_either(
        name in prop::sample::select(vec!["pin", "tube", "crank_arm", "block", "block_two_holes", "flange_plate", "one_bore"]),
        angles in (-3.15_f64..3.15, -1.58_f64..1.58, -3.15_f64..3.15),
        shift in prop::array::uniform3(-500.0_f64..500.0),
        seed in any::<u64>(),
    ) {
        let fail = |error: io::Error| TestCaseError::fail(error.to_string());
        let bytes = files::test_mesh(name).map_err(fail)?;
        let solid = Solid::of_stl(&bytes).map_err(fail)?.moved(&motion(angles.into(), shift)).shuffled(seed);
        let end = recognised(&stl::binary(&solid), LengthUnit::Millimetre);
        prop_assert!(matches!(end, Ok(Err(PartError::NotARod { .. }))), "{}: {:?}", name, end.map(|rod| rod.map(|r| r.center_distance)));
    }
}
