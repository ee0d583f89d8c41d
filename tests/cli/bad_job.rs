//! Bad job files and bad numbers: each ends with exit code 2, a plain sentence, and the option or key that mends it.

use super::Tested;
use super::refusal::refused;
use super::run::{JOB, ROD, changed_job, check, file, layload};

fn job(name: &str, from: &str, to: &str, wanted: &[&str]) -> Tested {
    let path = changed_job(&format!("bad_job_{name}.toml"), from, to)?;
    refused(name, &layload(&["check", ROD, "--job", &path])?, wanted);
    Ok(())
}

#[test]
fn missing_or_unreadable() -> Tested {
    refused("missing", &layload(&["check", ROD, "--job", "no_such.toml"])?, &["no_such.toml cannot be read"]);
    refused("folder", &layload(&["check", ROD, "--job", "tests"])?, &["tests cannot be read"]);
    refused("mesh as job", &layload(&["check", ROD, "--job", ROD])?, &["a mesh as binary STL, not a job file"]);
    Ok(())
}

#[test]
fn not_in_the_format() -> Tested {
    job("unclosed", "[engine]", "[engine", &["the job file cannot be read", "line "])?;
    job(
        "twice",
        "bore_mm = 52.0",
        "bore_mm = 52.0\nbore_mm = 53.0",
        &["the job file cannot be read", "duplicate key"],
    )?;
    job("word", "bore_mm = 52.0", "bore_mm = \"52 mm\"", &["the job file cannot be read"])
}

#[test]
fn unknown_keys_at_every_level() -> Tested {
    job("key", "bore_mm = 52.0", "bore_mm = 52.0\ncolour = \"red\"", &["unknown field `colour`"])?;
    job("table", "[engine]", "[enigne]", &["unknown field `enigne`"])?;
    job("nested", "[part.small_end]", "[part.small_end]\nwidth_mm = 3.0", &["unknown field `width_mm`"])?;
    job("step", "throttle = 0.4", "throttle = 0.4, gear = 2", &["unknown field `gear`"])
}

#[test]
fn wrong_units_in_names() -> Tested {
    job("inches", "stroke_mm = 46.0", "stroke_in = 1.8", &["unknown field `stroke_in`", "stroke_mm"])?;
    job("bare", "bore_mm = 52.0", "bore = 52.0", &["unknown field `bore`", "bore_mm"])?;
    job("kelvin", "temperature_c = 70.0", "temperature_k = 343.0", &["unknown field `temperature_k`"])?;
    job("pounds", "reciprocating_mass_g = 96.0", "reciprocating_mass_kg = 0.1", &["unknown field"])?;
    let path = changed_job("bad_job_foot.toml", "[part.small_end]", "[part]\nmesh_unit = \"foot\"\n[part.small_end]")?;
    refused("foot", &layload(&["check", ROD, "--job", &path])?, &["unknown variant `foot`", "millimetre"]);
    Ok(())
}

#[test]
fn numbers_out_of_range() -> Tested {
    job("stroke", "stroke_mm = 46.0", "stroke_mm = -46.0", &["stroke is -46 mm, outside"])?;
    job("bore", "bore_mm = 52.0", "bore_mm = 0.0", &["cylinder bore is 0 mm, outside"])?;
    job("mass", "reciprocating_mass_g = 96.0", "reciprocating_mass_g = -1.0", &["reciprocating mass is -1 g"])?;
    job("nan", "stroke_mm = 46.0", "stroke_mm = nan", &["stroke is "])?;
    job("infinite", "stroke_mm = 46.0", "stroke_mm = inf", &["stroke is "])?;
    job(
        "clearance",
        "radial_clearance_mm = 0.02",
        "radial_clearance_mm = -0.02",
        &["clearance of the piston pin is -0.02 mm"],
    )?;
    job("cold", "temperature_c = 70.0", "temperature_c = -300.0", &["part temperature is -300 °C"])?;
    job("life", "wanted_life_h = 2.0", "wanted_life_h = 0.0", &["wanted life is 0 h"])
}

#[test]
fn numbers_without_unit_out_of_range() -> Tested {
    let path = changed_job("bad_job_ratio.toml", "compression_ratio = 7.5", "compression_ratio = 1.0")?;
    let said = layload(&["check", ROD, "--job", &path])?;
    refused("ratio", &said, &["compression ratio is 1"]);
    assert!(!said.err.contains("1 1") && !said.err.contains("40 1"), "a pure number has no unit: {}", said.err);
    Ok(())
}

#[test]
fn speeds_that_do_not_turn() -> Tested {
    job("rpm", "rpm = 3000.0", "rpm = 0.0", &["speed", "rpm", "not 0"])?;
    job("rpm_negative", "rpm = 3000.0", "rpm = -3000.0", &["speed", "-3000"])?;
    job("rpm_nan", "rpm = 3000.0", "rpm = nan", &["speed", "rpm"])?;
    refused("option", &check(&["--rpm", "0"])?, &["speed", "rpm", "not 0"]);
    refused("negative option", &check(&["--rpm=-5"])?, &["speed", "rpm", "not -5"]);
    Ok(())
}

#[test]
fn negative_numbers_as_options() -> Tested {
    refused("stroke", &check(&["--stroke-mm", "-46"])?, &["stroke is -46 mm"]);
    refused("rpm", &check(&["--rpm", "-5"])?, &["speed", "not -5"]);
    refused("life", &check(&["--wanted-life-h", "-1"])?, &["wanted life is -1 h"]);
    refused("infill", &check(&["--infill-percent", "-1"])?, &["infill is -1 %"]);
    refused("bead", &check(&["--bead-width-mm", "-0.4"])?, &["bead width is -0.4 mm"]);
    Ok(())
}

#[test]
fn steps_that_are_no_duty() -> Tested {
    let path = file("bad_job_steps.toml", "[duty]\nsteps = []\n")?;
    let numbers = ["--stroke-mm", "46", "--bore-mm", "52", "--reciprocating-mass-g", "96", "--material", "PA12"];
    refused("no steps", &layload(&[&["check", ROD, "--job", &path], &numbers[..]].concat())?, &["duty"]);
    job("throttle", "throttle = 0.4", "throttle = 1.4", &["throttle"])?;
    job("seconds", "seconds = 120.0", "seconds = -120.0", &["step 1 of the duty"])
}

#[test]
fn a_throw_longer_than_the_rod() -> Tested {
    // The rod has 90 mm between centres.
    refused("throw", &check(&["--stroke-mm", "182"])?, &["the crank cannot turn", "91.000 mm", "90.000 mm"]);
    job("throw_in_file", "stroke_mm = 46.0", "stroke_mm = 190.0", &["the crank cannot turn", "stroke"])?;
    job(
        "offset",
        "stroke_mm = 46.0",
        "stroke_mm = 100.0\npin_offset_mm = 45.0",
        &["a pin offset of 45 mm does not go with a stroke of 100 mm"],
    )
}

#[test]
fn materials_and_directions() -> Tested {
    refused("material", &check(&["--material", "WOOD"])?, &["no material named `WOOD`", "PA12-CF15"]);
    refused("direction", &check(&["--build-direction", "0,0,0"])?, &["build direction"]);
    job("direction", "build_direction = \"flat\"", "build_direction = [nan, 0.0, 1.0]", &["build direction"])?;
    job("pose", "build_direction = \"flat\"", "build_direction = \"askew\"", &["the job file cannot be read"])?;
    job("card", "name = \"PA12-CF15\"", "card_file = \"no_such_card.toml\"", &["no_such_card.toml cannot be read"])?;
    job("both", "name = \"PA12-CF15\"", "name = \"PA12\"\ncard_file = \"bad_job_both.toml\"", &["cannot both be given"])
}

#[test]
fn nothing_printed_at_all() -> Tested {
    refused("no walls and no infill", &check(&["--walls", "0", "--infill-percent", "0"])?, &["infill"]);
    Ok(())
}

#[test]
fn bores_by_hand() -> Tested {
    // The other end is looked for.
    assert_ne!(check(&["--small-end", "5,-4,7,13"])?.code, Some(2));
    let both = ["--small-end", "5,-4,7,13", "--big-end", "91.93,19.29,7,24"];
    let without_axis = check(&both)?;
    // Either the axis is found from the mesh, or the option that gives it is named.
    if without_axis.code == Some(2) {
        refused("no axis", &without_axis, &["--pin-axis"]);
    }
    let flat = check(&[&both[..], &["--pin-axis", "0,0,0"]].concat())?;
    refused("no direction", &flat, &["bores given by hand do not fit"]);
    let outside = ["--small-end", "500,-4,7,13", "--big-end", "91.93,19.29,7,24", "--pin-axis", "0,0,1"];
    refused("outside", &check(&outside)?, &["no wall of 13.00 mm"]);
    refused("axis alone", &check(&["--pin-axis", "0,0,0"])?, &["axis"]);
    job("half_said", "[part.small_end]", "[part.small_end]\ndiameter_mm = 13.0", &["part.small_end.center_mm"])
}

#[test]
fn all_that_is_missing_is_named() -> Tested {
    // A newcomer should not have to run it five times to learn of five numbers.
    let said = layload(&["check", ROD])?;
    let options = ["--stroke-mm", "--bore-mm", "--reciprocating-mass-g", "--material", "--rpm"];
    refused("no job", &said, &options);
    Ok(())
}

#[test]
fn the_job_file_alone_is_enough() -> Tested {
    assert_ne!(layload(&["check", "--quick", ROD, "--job", JOB])?.code, Some(2));
    Ok(())
}
