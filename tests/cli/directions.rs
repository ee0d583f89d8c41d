//! `layload directions`.

use serde_json::Value;

use super::Tested;
use super::run::{JOB, ROD, layload};

fn asked(options: &[&str]) -> Result<Value, Box<dyn std::error::Error>> {
    let said = layload(&[&["directions", "--quick", ROD, "--job", JOB, "--count", "60", "--json"], options].concat())?;
    assert_eq!(said.err, "");
    Ok(serde_json::from_str(&said.out)?)
}

/// Names that scripts may rely on.
#[test]
fn names_are_there() -> Tested {
    let report = asked(&[])?;
    let named = ["flat", "on_edge", "upright"].map(|pose| &report["named"][pose]);
    let listed = report["directions"].as_array().ok_or("no directions")?;
    assert!(listed.len() > 10);
    for direction in listed.iter().chain(named).chain([&report["recommended"]]) {
        assert_eq!(direction["build_direction"].as_array().map(Vec::len), Some(3));
        for name in
            ["life_s", "support_area_mm2", "support_volume_mm3", "height_mm", "print_time_s", "contact_area_mm2"]
        {
            assert!(direction[name].is_number(), "{name}: {direction}");
        }
        assert!(direction["governing_mode"].is_string() && direction["pareto"].is_boolean());
    }
    assert!(report["recommended"]["reason"].as_str().is_some_and(|reason| reason.contains("margin")));
    Ok(())
}

#[test]
fn the_same_again() -> Tested {
    assert_eq!(asked(&[])?, asked(&[])?);
    Ok(())
}

#[test]
fn text_fits_the_window() -> Tested {
    let said = layload(&["directions", "--quick", ROD, "--job", JOB, "--count", "40"])?;
    assert!(said.out.starts_with("Print  layers along"), "{}", said.out);
    assert!(said.out.contains("Safety") && said.out.contains("layload explain safety"));
    for line in said.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    Ok(())
}

/// What is said of a direction in full is what a check of it says, to the last digit, and the recommended one is listed.
#[test]
fn a_check_of_a_direction_agrees() -> Tested {
    let report = asked(&[])?;
    let listed = report["directions"].as_array().ok_or("no directions")?;
    let checked: Vec<&Value> = listed.iter().filter(|d| d["checked"] == true).collect();
    assert!(checked.len() >= 3, "{checked:?}");
    for direction in checked {
        let components = direction["build_direction"].as_array().ok_or("no direction")?;
        let words: Vec<String> = components.iter().map(Value::to_string).collect();
        let option = format!("--build-direction={}", words.join(","));
        let said = layload(&["check", "--quick", ROD, "--job", JOB, &option, "--json"])?;
        let check: Value = serde_json::from_str(&said.out)?;
        assert_eq!(check["verdict"]["margin"], direction["margin"], "{option}");
    }
    let best = &report["recommended"]["build_direction"];
    assert!(listed.iter().any(|d| d["build_direction"] == *best && d["pareto"] == true));
    Ok(())
}

#[test]
fn poses_that_are_left_out_say_why() -> Tested {
    let said = layload(&["directions", "--quick", ROD, "--job", JOB, "--count", "40"])?;
    let text = said.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("Best compromises of margin, time, support and bore steps: "), "{}", said.out);
    // A rod on its end stands on the strip where the round of its eye meets the bed.
    assert!(text.contains("upright left out: only ") && text.contains("mm² rest on the bed"), "{}", said.out);
    Ok(())
}

#[test]
fn follows_its_schema() -> Tested {
    let schema: Value = serde_json::from_str(&layload(&["schema", "directions"])?.out)?;
    let validator = jsonschema::validator_for(&schema)?;
    let report = asked(&["--material", "PA6-GF"])?;
    let faults: Vec<String> = validator.iter_errors(&report).map(|error| error.to_string()).collect();
    assert!(faults.is_empty(), "{faults:?}");
    Ok(())
}

#[test]
fn odd_counts_are_refused() -> Tested {
    let said = layload(&["directions", "--quick", ROD, "--job", JOB, "--count", "3"])?;
    assert_eq!((said.code, said.out.as_str()), (Some(2), ""));
    assert!(said.complains("not 3"), "{}", said.err);
    Ok(())
}
