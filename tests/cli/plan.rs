//! The ladder of runs from the command line.

use serde_json::Value;

use super::Tested;
use super::refusal::refused;
use super::run::{file, layload};

const MESH: &str = "samples/plain_rod.stl";
const JOB: &str = "samples/bench_single.toml";

fn json(options: &[&str]) -> Result<Value, Box<dyn std::error::Error>> {
    let said = layload(&[&["plan", "--quick", MESH, "--job", JOB, "--json"], options].concat())?;
    assert_eq!(said.code, Some(0), "{}", said.err);
    Ok(serde_json::from_str(&said.out)?)
}

#[test]
fn a_plan_in_words_begins_with_its_cautions() -> Tested {
    let said = layload(&["plan", "--quick", MESH, "--job", JOB, "--parts", "2"])?;
    assert_eq!(said.code, Some(0), "{}", said.err);
    let at = |words: &str| said.out.find(words).ok_or_else(|| format!("no {words}: {}", said.out));
    let order = [at("Before any step")?, at("shield")?, at("The ladder")?, at("After each step")?, at("Stop signs")?];
    assert!(order.is_sorted(), "{order:?}");
    assert!(said.out.contains("No step is safe") && said.out.contains("oval"), "{}", said.out);
    for line in said.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    Ok(())
}

#[test]
fn a_plan_follows_its_schema_and_keeps_its_rules() -> Tested {
    let report = json(&["--parts", "2"])?;
    let schema: Value = serde_json::from_str(&layload(&["schema", "plan"])?.out)?;
    assert!(jsonschema::validator_for(&schema)?.is_valid(&report));
    let steps = report["steps"].as_array().ok_or("no steps")?;
    assert!(steps.len() >= 3, "{}", steps.len());
    let low = steps[0]["breaks"].as_f64().is_some_and(|share| share <= 0.001);
    assert_eq!(report["starts_low_enough"].as_bool(), Some(low));
    // Where it is not, that is the first that is said of the plan.
    let said = report["notes"][0].as_str().ok_or("no notes")?;
    assert_eq!(said.contains("No level is low enough to start"), !low, "{said}");
    let of = |step: &Value, name: &str| step[name].as_f64().unwrap_or(f64::NAN);
    for pair in steps.windows(2) {
        assert!(
            of(&pair[0], "rpm") <= of(&pair[1], "rpm") && of(&pair[0], "come_through") >= of(&pair[1], "come_through")
        );
    }
    for step in steps {
        assert!(of(&step["if_it_breaks"], "middle") < of(&step["if_it_lives"], "middle"));
    }
    assert_eq!(report["after_parts"].as_array().map(Vec::len), Some(2));
    assert!(report["inspect"].as_array().is_some_and(|list| list.iter().any(|look| look["center_mm"].is_array())));
    Ok(())
}

/// What a log taught is where the next plan starts: long survivors let it start no lower and come through more often.
#[test]
fn a_log_moves_the_ladder() -> Tested {
    let run = "{\"family\":\"rods\",\"outcome\":\"survived\",\"steps\":[{\"rpm\":6500.0,\"throttle\":1.0,\"seconds\":7200.0}]}\n";
    let log = file("plan_moved.log", run.repeat(3))?;
    let (before, after) = (json(&["--parts", "1"])?, json(&["--parts", "1", "--log", &log, "--family", "rods"])?);
    let through = |report: &Value| report["come_through"].as_f64().unwrap_or(0.0);
    assert!(through(&after) > through(&before), "{} {}", through(&before), through(&after));
    let width = |report: &Value| {
        let band = &report["margin"];
        band["high"].as_f64().unwrap_or(0.0) / band["low"].as_f64().unwrap_or(1.0)
    };
    assert!(width(&after) < width(&before));
    Ok(())
}

#[test]
fn slips_are_refused() -> Tested {
    let plan = ["plan", "--quick", MESH, "--job", JOB];
    refused("none", &layload(&[&plan[..], &["--parts", "0"]].concat())?, &["1 to 12 parts, not 0", "5 is usual"]);
    refused("many", &layload(&[&plan[..], &["--parts", "99"]].concat())?, &["99"]);
    assert_eq!(layload(&[&plan[..], &["--log", "/no/such/folder/bench.log"]].concat())?.code, Some(2));
    Ok(())
}
