//! Reading a break from the command line: answers, refusals, the log.

use std::fs;

use serde_json::Value;

use super::Tested;
use super::refusal::refused;
use super::run::{file, layload};

const MESH: &str = "samples/plain_rod.stl";
const JOB: &str = "samples/bench_single.toml";

fn asked<'a>(options: &[&'a str]) -> Vec<&'a str> {
    [&["diagnose", MESH, "--job", JOB, "--quick"], options].concat()
}

fn json(options: &[&str]) -> Result<Value, Box<dyn std::error::Error>> {
    let said = layload(&[&asked(options)[..], &["--json"]].concat())?;
    assert_eq!(said.code, Some(0), "{}", said.err);
    Ok(serde_json::from_str(&said.out)?)
}

#[test]
fn a_break_is_read_in_words_and_as_json() -> Tested {
    let break_of = ["--seen", "egg shaped,bulged", "--at", "big end", "--speed-rpm", "5000", "--time", "10min"];
    let report = json(&break_of)?;
    let schema: Value = serde_json::from_str(&layload(&["schema", "diagnose"])?.out)?;
    assert!(jsonschema::validator_for(&schema)?.is_valid(&report));
    assert_eq!(report["causes"][0]["mode"], "bearing-pressure");
    assert_eq!((report["run"]["rpm"].as_f64(), report["run"]["seconds"].as_f64()), (Some(5000.0), Some(600.0)));
    let sum: f64 =
        report["causes"].as_array().ok_or("no causes")?.iter().filter_map(|c| c["probability"].as_f64()).sum();
    assert!((sum - 1.0).abs() < 1e-12);
    let said = layload(&asked(&break_of))?;
    for words in ["Cause ", "pin pressure", "Next look", "What to change", "Safety"] {
        assert!(said.out.contains(words), "{words}: {}", said.out);
    }
    for line in said.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    // The same question, the same bytes.
    assert_eq!(said, layload(&asked(&break_of))?);
    Ok(())
}

#[test]
fn slips_are_refused_with_what_was_meant() -> Tested {
    refused("look", &layload(&asked(&["--seen", "whitend"]))?, &["whitend", "did you mean", "whitened"]);
    refused("look", &layload(&asked(&["--seen", "purple"]))?, &["purple", "flat-between-layers"]);
    refused("place", &layload(&asked(&["--at", "shanck"]))?, &["shanck", "did you mean `shank`"]);
    refused("place", &layload(&asked(&["--at", "crown"]))?, &["crown", "small end"]);
    refused("point", &layload(&asked(&["--at", "900,0,0"]))?, &["not on the part", "nearest point"]);
    refused("time", &layload(&asked(&["--time", "9000h"]))?, &["beyond the duty"]);
    refused("throttle", &layload(&asked(&["--throttle", "7"]))?, &["throttle", "not possible"]);
    for (options, words) in [(&["--time", "40"][..], "say the unit"), (&["--log", "bench.log"], "--time")] {
        let said = layload(&asked(options))?;
        assert!(said.code == Some(2) && said.complains(words), "{}", said.err);
    }
    Ok(())
}

/// Every look of the list is explained, under the name that --seen takes.
#[test]
fn the_list_of_looks_is_whole() -> Tested {
    let told = layload(&["explain", "looks"])?.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for look in layload_core::diagnosis::Look::ALL {
        assert!(told.contains(look.name()), "{}", look.name());
    }
    Ok(())
}

fn fresh(name: &str) -> Result<String, Box<dyn std::error::Error>> {
    let path = file(name, b"")?;
    fs::remove_file(&path)?;
    Ok(path)
}

/// Breaks of the layers teach the bond, and leave the beads nearly as they were.
#[test]
fn a_logged_break_teaches_what_decides_its_mode() -> Tested {
    let log = fresh("diagnosed.log")?;
    let text = fs::read_to_string(super::run::top().join(JOB))?;
    let standing = file("diagnosed_upright.toml", text.replacen("\"flat\"", "\"upright\"", 1))?;
    let asked = |options: &[&str]| layload(&[&["diagnose", MESH, "--job", &standing, "--quick"], options].concat());
    for time in ["40s", "50s", "30s"] {
        let run =
            ["--seen", "flat face,rough", "--at", "small end", "--speed-rpm", "5000", "--time", time, "--log", &log];
        let said = asked(&run)?;
        assert_eq!(said.code, Some(0), "{}", said.err);
        assert!(said.out.contains("the run is added to"), "{}", said.out);
    }
    let text = fs::read_to_string(&log)?;
    assert_eq!(text.lines().count(), 3);
    assert!(text.lines().all(|line| line.contains("\"mode\":\"overload-across-layers\"")), "{text}");
    let learn = |more: &[&str]| -> Result<Value, Box<dyn std::error::Error>> {
        let said =
            layload(&[&["learn", "--quick", &log, "--mesh", MESH, "--job", &standing, "--json"], more].concat())?;
        assert!(matches!(said.code, Some(1 | 3)), "{}", said.err);
        Ok(serde_json::from_str(&said.out)?)
    };
    let report = learn(&[])?;
    let schema: Value = serde_json::from_str(&layload(&["schema", "learn"])?.out)?;
    assert!(jsonschema::validator_for(&schema)?.is_valid(&report));
    let factor = |report: &Value, name: &str| -> Option<f64> {
        report["quantities"].as_array()?.iter().find(|of| of["name"] == name)?["after"].as_f64()
    };
    let (bond, beads) = (factor(&report, "bond between layers"), factor(&report, "strength of beads"));
    let (bond, beads) = (bond.ok_or("no bond")?, beads.ok_or("no beads")?);
    assert!(bond < 0.9 && (beads - 1.0).abs() < 0.1 && bond < beads - 0.1, "bond {bond}, beads {beads}");
    assert_eq!(report["entries"][0]["mode"], "overload-across-layers");
    // A run taken back counts no longer, and stays in the file.
    let less = learn(&["--take-back", "2"])?;
    assert_eq!((less["runs"].as_u64(), fs::read_to_string(&log)?.lines().count()), (Some(2), 4));
    assert!(fs::read_to_string(&log)?.starts_with(&text));
    assert!(factor(&less, "bond between layers").ok_or("no bond")? > bond);
    let again = ["learn", "--quick", &log, "--mesh", MESH, "--job", &standing, "--take-back", "2"];
    refused("again", &layload(&again)?, &["nothing is taken back", "line 2"]);
    let none = ["learn", "--quick", &log, "--mesh", MESH, "--job", &standing, "--take-back", "9"];
    refused("none", &layload(&none)?, &["line 9"]);
    assert_eq!(fs::read_to_string(&log)?.lines().count(), 4);
    Ok(())
}

/// A break that is not clear goes into the log without a mode.
#[test]
fn an_unclear_break_has_no_mode_in_the_log() -> Tested {
    let log = fresh("diagnosed_unclear.log")?;
    let run = ["--time", "30min", "--log", &log, "--seen", "whitened"];
    let report = json(&run)?;
    let clear = report["causes"][0]["probability"].as_f64().ok_or("no cause")? >= 0.5 && report["undecided"] == false;
    assert_eq!(fs::read_to_string(&log)?.contains("\"mode\""), clear);
    assert!(fs::read_to_string(&log)?.contains("\"seen\":[\"whitened\"]"));
    Ok(())
}
