//! What is no rod is not called one, and the refusal says what was found.

use layload_core::part::PartError;
use layload_core::{Help, LengthUnit};

use super::{Tested, recognised};
use crate::mesh::shapes::{Region, Solid, motion};
use crate::mesh::{files, stl};

fn refusal(bytes: &[u8]) -> Result<PartError, Box<dyn std::error::Error>> {
    match recognised(bytes, LengthUnit::Millimetre)? {
        Err(error) => Ok(error),
        Ok(rod) => Err(format!("called a rod with centres {} mm apart", rod.center_distance * 1e3).into()),
    }
}

#[test]
fn files_of_other_parts() -> Tested {
    for (name, value) in files::truths()?.as_object().ok_or("no files")? {
        if value["expected"] != "not_a_rod" || name.ends_with("two_rods.stl") {
            continue;
        }
        let error = refusal(&files::bytes(name)?).map_err(|e| format!("{name}: {e}"))?;
        let PartError::NotARod { reason, found } = &error else { return Err(format!("{name}: {error}").into()) };
        assert!(!reason.is_empty() && found.contains("bore"), "{name}: {error}");
        assert_eq!(error.help(), Help::NameRod, "{name}");
    }
    Ok(())
}

#[test]
fn what_was_found_is_named() -> Tested {
    let error = refusal(&files::test_mesh("pin")?)?.to_string();
    assert!(error.contains("no bore"), "{error}");
    let error = refusal(&files::test_mesh("one_bore")?)?.to_string();
    assert!(error.contains("only one bore"), "{error}");
    let error = refusal(&files::test_mesh("block_two_holes")?)?.to_string();
    assert_eq!(error.matches("a bore of 10.00 mm").count(), 2, "{error}");
    let error = refusal(&files::test_mesh("tube")?)?.to_string();
    assert!(error.contains("only one bore"), "{error}");
    Ok(())
}

#[test]
fn plain_solids() -> Tested {
    let steps = 48;
    let ring = Solid::prism(&Region::annulus(20.0, 12.0, 0.0, steps), 0.0, 8.0);
    let stretched = Solid::prism(&Region::ellipse(60.0, 15.0, steps), 0.0, 10.0);
    let off_centre = Solid::prism(&Region::annulus(20.0, 8.0, 7.0, steps), 0.0, 8.0);
    let i_beam = Solid::prism(&Region::i_section(14.0, 22.0, 3.5, 3.5), 0.0, 90.0);
    for (name, solid) in [
        ("ring", ring),
        ("elliptical disc", stretched),
        ("eccentric ring", off_centre),
        ("I-beam", i_beam),
        ("ball", Solid::ball(25.0, 24)),
    ] {
        for turn in [[0.0; 3], [0.7, 0.4, -1.0]] {
            let moved = solid.clone().moved(&motion(turn, [3.0, 4.0, 5.0]));
            let error = refusal(&stl::binary(&moved)).map_err(|e| format!("{name}: {e}"))?;
            assert!(matches!(error, PartError::NotARod { .. }), "{name}: {error}");
        }
    }
    Ok(())
}

#[test]
fn two_rings_on_one_axis() -> Tested {
    let ring = Solid::prism(&Region::annulus(20.0, 12.0, 0.0, 48), 0.0, 8.0);
    let far = ring.clone().moved(&motion([0.0; 3], [40.0, 0.0, 0.0]));
    let axle = Solid::prism(&Region::annulus(14.0, 11.0, 0.0, 48), 4.0, 44.0);
    let error = refusal(&stl::binary(&ring.with(&far).with(&axle)))?;
    assert!(matches!(error, PartError::NotARod { .. }), "{error}");
    Ok(())
}
