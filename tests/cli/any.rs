//! A part of any kind through the program: places listed, a job written and checked, wrong places told.

use serde_json::Value;

use super::Tested;
use super::run::{file, layload, top};

const MOUNT: &str = "samples/places/mount.stl";
const JOB: &str = "samples/places/mount.toml";

#[test]
fn the_sample_mount_is_checked() -> Tested {
    let said = layload(&["check", MOUNT, "--job", JOB, "--cells", "8000", "--json"])?;
    assert_eq!(said.err, "");
    let report: Value = serde_json::from_str(&said.out)?;
    assert_eq!(report["part"]["kind"], "any");
    let places = report["any"]["places"].as_array().ok_or("no places")?;
    assert_eq!(places.len(), 2);
    assert_eq!((&places[0]["name"], &places[0]["shape"]), (&"lug".into(), &"bore".into()));
    // The foot's underside of 60 x 16 mm without two holes of 5.2 mm.
    let area = places[1]["area_mm2"].as_f64().ok_or("no area")?;
    assert!((area - (960.0 - 2.0 * 21.24)).abs() < 1.0, "{area}");
    let text = layload(&["check", MOUNT, "--job", JOB, "--cells", "8000", "--all"])?.out;
    for words in
        ["parts should last", "Places", "lug: bore of 8.00 mm", "Held", "foot in every direction", "shake_up", "shield"]
    {
        assert!(text.contains(words), "no `{words}` in\n{text}");
    }
    for line in text.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    assert!(!text.to_lowercase().contains("is safe"));
    Ok(())
}

#[test]
fn places_are_listed_as_lines_of_a_job() -> Tested {
    let said = layload(&["places", MOUNT])?;
    assert_eq!((said.code, said.err.as_str()), (Some(0), ""));
    assert!(said.out.contains("3 bores"), "{}", said.out);
    let near = said.out.lines().find(|line| line.contains("diameter_mm = 8.00")).ok_or("no bore of 8 mm")?;
    let face = said.out.lines().find(|line| line.trim().starts_with("face =")).ok_or("no face")?;
    // The lines are a place each.
    let job = std::fs::read_to_string(top().join(JOB))?
        .replace("bore = { near_mm = [0, 30, 8], diameter_mm = 8.0 }", near.trim())
        .replace(
            "table = \"mount.csv\"",
            "angle_deg = [0, 180]\nloads = { shake_up = [100, -100], shake_side = [0, 1] }",
        );
    let job = format!("{job}\n[[place]]\nname = \"listed\"\n{}\n", face.trim());
    let path = file("any_listed.toml", job)?;
    let said = layload(&["check", MOUNT, "--job", &path, "--cells", "2000", "--json"])?;
    assert_eq!(said.err, "");
    Ok(())
}

#[test]
fn a_written_job_is_one_for_the_sample() -> Tested {
    let path = file("any_new.toml", "")?;
    let said = layload(&["new-job", &path, "--part", "mount", "--overwrite"])?;
    assert_eq!((said.code, said.err.as_str()), (Some(0), ""));
    let said = layload(&["check", MOUNT, "--job", &path, "--cells", "2000", "--json"])?;
    assert_eq!(said.err, "");
    Ok(())
}

#[test]
fn wrong_places_and_sections_are_told() -> Tested {
    let job = std::fs::read_to_string(top().join(JOB))?.replace("table = \"mount.csv\"", "");
    let steady = job.replace("near_mm = [0, 30, 8], diameter_mm = 8.0", "diameter_mm = 9.5");
    let path = file("any_wrong.toml", steady)?;
    let said = layload(&["check", MOUNT, "--job", &path])?;
    assert_eq!(said.code, Some(2));
    assert!(said.complains("the place `lug` has no surface"), "{}", said.err);
    let said = layload(&["check", "--quick", MOUNT, "--job", JOB])?;
    assert_eq!(said.code, Some(2));
    assert!(said.complains("has no sections"), "{}", said.err);
    Ok(())
}
