//! What reaches a wanted speed and life: table, JSON, exit code.

use serde_json::Value;

use super::Tested;
use super::run::layload;

const MESH: &str = "samples/plain_rod.stl";
const JOB: &str = "samples/bench_single.toml";

#[test]
fn names_that_scripts_rely_on() -> Tested {
    let command =
        ["size", "--quick", MESH, "--job", JOB, "--rpm", "5600", "--life", "7200s", "--vary", "whole,shank", "--json"];
    let said = layload(&command)?;
    assert_eq!((said.code, said.err.as_str()), (Some(3), ""));
    let report: Value = serde_json::from_str(&said.out)?;
    let schema: Value = serde_json::from_str(&layload(&["schema", "size"])?.out)?;
    assert!(jsonschema::validator_for(&schema)?.is_valid(&report));
    assert_eq!((report["wanted_rpm"].as_f64(), report["wanted_life_s"].as_f64()), (Some(5600.0), Some(7200.0)));
    let lightest = report["lightest"].as_u64().ok_or("none")? as usize;
    assert_eq!(report["candidates"][lightest]["reaches"], true);
    // Sections alone were asked.
    assert_eq!(report["candidates"][lightest]["state"], "no-fault-found");
    assert_eq!(report["candidates"][lightest]["by"], "sections");
    // Times may carry a unit.
    let hours = layload(&[
        "size",
        "--quick",
        MESH,
        "--job",
        JOB,
        "--rpm",
        "5600",
        "--life",
        "2h",
        "--vary",
        "whole,shank",
        "--json",
    ])?;
    assert_eq!(hours.out, said.out);
    Ok(())
}

#[test]
fn what_nothing_reaches_is_said_and_ends_with_1() -> Tested {
    let said =
        layload(&["size", "--quick", MESH, "--job", JOB, "--rpm", "20000", "--life", "100h", "--vary", "whole"])?;
    assert_eq!(said.code, Some(1));
    assert!(said.out.contains("no size reaches"), "{}", said.out);
    for line in said.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    Ok(())
}

#[test]
fn times_and_ranges_that_make_no_sense_are_refused() -> Tested {
    for options in [
        ["--life", "0"],
        ["--life", "7200"],
        ["--life", "-3h"],
        ["--life", "soon"],
        ["--range", "2,1"],
        ["--range", "1"],
    ] {
        let said = layload(&[&["size", "--quick", MESH, "--job", JOB][..], &options].concat())?;
        assert_eq!((said.code, said.out.as_str()), (Some(2), ""), "{options:?}");
    }
    Ok(())
}
