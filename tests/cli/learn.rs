//! The bench log: added to whole, learned from, used by the next check.

use std::fs;

use serde_json::Value;

use super::Tested;
use super::run::{file, layload};

const MESH: &str = "samples/plain_rod.stl";
const JOB: &str = "samples/bench_single.toml";

fn fresh(name: &str) -> Result<String, Box<dyn std::error::Error>> {
    let path = file(name, b"")?;
    fs::remove_file(&path)?;
    Ok(path)
}

fn add<'a>(log: &'a str, outcome: &'a str, steps: &'a str) -> Vec<&'a str> {
    vec!["learn", log, "--mesh", MESH, "--job", JOB, "--add", outcome, "--steps", steps, "--date", "2026-05-04"]
}

#[test]
fn runs_are_added_and_the_next_check_knows_them() -> Tested {
    let log = fresh("bench_runs.log")?;
    let first = layload(&add(&log, "survived", "5000:1:3600,5500:1:1800"))?;
    assert!(matches!(first.code, Some(0 | 1)), "{first:?}");
    let more =
        [add(&log, "failed", "6500:1:200"), vec!["--sound", "2min", "--place", "big-end eye", "--json"]].concat();
    let said = layload(&more)?;
    let report: Value = serde_json::from_str(&said.out)?;
    let schema: Value = serde_json::from_str(&layload(&["schema", "learn"])?.out)?;
    assert!(jsonschema::validator_for(&schema)?.is_valid(&report));
    assert_eq!((report["runs"].as_u64(), report["failures"].as_u64()), (Some(2), Some(1)));
    assert_eq!(fs::read_to_string(&log)?.lines().count(), 2);
    let check = layload(&["check", MESH, "--job", JOB, "--log", &log, "--json"])?;
    let checked: Value = serde_json::from_str(&check.out)?;
    assert_eq!(checked["verdict"]["margin"], report["life_after"]["margin"]);
    assert_ne!(checked["verdict"]["margin"], report["life_before"]["margin"]);
    let told = checked["assumptions"].as_array().and_then(|l| l.iter().find(|e| e["name"] == "bench log"));
    assert!(told.ok_or("not told")?["value"].as_str().is_some_and(|text| text.contains("2 runs")));
    for line in layload(&["learn", &log, "--mesh", MESH, "--job", JOB])?.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    Ok(())
}

#[test]
fn a_torn_line_is_no_entry_and_costs_no_other() -> Tested {
    let log = fresh("bench_torn.log")?;
    layload(&add(&log, "survived", "5000:1:600"))?;
    let whole = fs::read_to_string(&log)?;
    fs::write(&log, format!("{whole}{}", &whole[..whole.len() / 2]))?;
    let said = layload(&["learn", &log, "--mesh", MESH, "--job", JOB])?;
    assert!(said.out.contains("never finished") && said.out.contains("1 runs"), "{}", said.out);
    layload(&add(&log, "survived", "5000:1:600"))?;
    assert_eq!(fs::read_to_string(&log)?, whole.repeat(2));
    Ok(())
}

#[test]
fn slips_add_nothing() -> Tested {
    let log = fresh("bench_slips.log")?;
    for steps in ["5000:1", "0:1:60", "5000:3:60", "fast:1:60"] {
        let said = layload(&add(&log, "failed", steps))?;
        assert_eq!(said.code, Some(2), "{steps}");
        assert!(fs::metadata(&log).is_err(), "{steps}");
    }
    let said = layload(&["learn", &log, "--mesh", MESH, "--job", JOB])?;
    assert_eq!(said.code, Some(2));
    assert!(said.complains("--add"), "{}", said.err);
    let broken = file("bench_broken.log", "{\"family\": 3}\n")?;
    assert_eq!(layload(&add(&broken, "failed", "5000:1:60"))?.code, Some(2));
    assert_eq!(fs::read_to_string(&broken)?, "{\"family\": 3}\n");
    Ok(())
}
