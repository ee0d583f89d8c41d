//! Two revisions side by side: table, JSON and drawing.

use std::fs;

use serde_json::Value;

use super::Tested;
use super::run::{changed_job, file, layload};

const OLD: &str = "samples/plain_rod.stl";
const NEW: &str = "samples/i_shank_rod.stl";
const JOB: &str = "samples/bench_single.toml";

#[test]
fn names_that_scripts_rely_on() -> Tested {
    let said = layload(&["compare", "--quick", OLD, NEW, "--job", JOB, "--json"])?;
    assert!(matches!(said.code, Some(1 | 3)), "{said:?}");
    let report: Value = serde_json::from_str(&said.out)?;
    let schema: Value = serde_json::from_str(&layload(&["schema", "compare"])?.out)?;
    assert!(jsonschema::validator_for(&schema)?.is_valid(&report));
    for change in report["changes"].as_array().ok_or("no changes")? {
        assert!(change["name"].is_string() && change["unit"].is_string() && change["group"].is_string());
    }
    // The new one's numbers are those of its own check, and so is the exit code.
    let check = layload(&["check", "--quick", NEW, "--job", JOB, "--json"])?;
    let checked: Value = serde_json::from_str(&check.out)?;
    assert_eq!(said.code, check.code);
    let mass = report["changes"].as_array().and_then(|l| l.iter().find(|c| c["name"] == "mass as printed"));
    assert_eq!(mass.ok_or("no mass")?["new"], checked["mesh"]["mass_g"]);
    Ok(())
}

#[test]
fn two_jobs_on_one_mesh() -> Tested {
    let job = changed_job("other_job.toml", "bore_mm", "pin_offset_mm = 1.0\nbore_mm")?;
    let said = layload(&["compare", "--quick", OLD, OLD, "--job", JOB, "--new-job", &job])?;
    assert!(said.out.contains("Values of the jobs that differ"), "{}", said.out);
    for line in said.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    Ok(())
}

#[test]
fn the_drawing_is_whole_and_not_overwritten() -> Tested {
    let path = file("revisions.svg", b"")?;
    fs::remove_file(&path)?;
    let command = ["compare", "--quick", OLD, NEW, "--job", JOB, "--svg", &path];
    assert!(matches!(layload(&command)?.code, Some(1 | 3)));
    let text = fs::read_to_string(&path)?;
    for part in ["thinnest wall, mm", "area, mm²", "share of the load path", "</svg>"] {
        assert!(text.contains(part), "{part}");
    }
    assert_eq!(layload(&command)?.code, Some(2));
    Ok(())
}
