//! The bench log: added to whole, learned from, used by the next check.

use std::fs;

use serde_json::Value;

use super::Tested;
use super::refusal::refused;
use super::run::{file, layload};

const MESH: &str = "samples/plain_rod.stl";
const JOB: &str = "samples/bench_single.toml";

fn fresh(name: &str) -> Result<String, Box<dyn std::error::Error>> {
    let path = file(name, b"")?;
    fs::remove_file(&path)?;
    Ok(path)
}

fn add<'a>(log: &'a str, outcome: &'a str, steps: &'a str) -> Vec<&'a str> {
    vec![
        "learn",
        "--quick",
        log,
        "--mesh",
        MESH,
        "--job",
        JOB,
        "--add",
        outcome,
        "--steps",
        steps,
        "--date",
        "2026-05-04",
    ]
}

#[test]
fn runs_are_added_and_the_next_check_knows_them() -> Tested {
    let log = fresh("bench_runs.log")?;
    let first = layload(&add(&log, "survived", "5000:1:3600,5500:1:1800"))?;
    assert!(matches!(first.code, Some(1 | 3)), "{first:?}");
    let more =
        [add(&log, "failed", "6500:1:200"), vec!["--sound", "2min", "--place", "big-end eye", "--json"]].concat();
    let said = layload(&more)?;
    let report: Value = serde_json::from_str(&said.out)?;
    let schema: Value = serde_json::from_str(&layload(&["schema", "learn"])?.out)?;
    assert!(jsonschema::validator_for(&schema)?.is_valid(&report));
    assert_eq!((report["runs"].as_u64(), report["failures"].as_u64()), (Some(2), Some(1)));
    assert_eq!(fs::read_to_string(&log)?.lines().count(), 2);
    let check = layload(&["check", "--quick", MESH, "--job", JOB, "--log", &log, "--json"])?;
    let checked: Value = serde_json::from_str(&check.out)?;
    assert_eq!(checked["verdict"]["margin"], report["life_after"]["margin"]);
    assert_ne!(checked["verdict"]["margin"], report["life_before"]["margin"]);
    let told = checked["assumptions"].as_array().and_then(|l| l.iter().find(|e| e["name"] == "bench log"));
    assert!(told.ok_or("not told")?["value"].as_str().is_some_and(|text| text.contains("2 runs")));
    for line in layload(&["learn", "--quick", &log, "--mesh", MESH, "--job", JOB])?.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    Ok(())
}

#[test]
fn a_day_that_is_none_is_refused() -> Tested {
    let log = fresh("bench_days.log")?;
    let dated = |day: &'static str| {
        let mut words = add(&log, "survived", "5000:1:600");
        words.pop();
        words.push(day);
        layload(&words)
    };
    for day in ["2026-13-04", "2026-02-29", "2026-04-31", "2026-05-00"] {
        let said = dated(day)?;
        assert!(said.code == Some(2) && said.err.contains("there is no such day"), "{day}: {}", said.err);
    }
    assert!(fs::metadata(&log).is_err(), "a log was begun");
    // Words of one's own are as good.
    for day in ["2028-02-29", "the cold morning"] {
        assert!(matches!(dated(day)?.code, Some(1 | 3)), "{day}");
    }
    Ok(())
}

/// A line that was never finished is told of by its number, and cut off only where that is asked for: it may be the only
/// trace of a run, or somebody's notes.
#[test]
fn a_torn_line_is_no_entry_and_stays_unless_told() -> Tested {
    let log = fresh("bench_torn.log")?;
    layload(&add(&log, "survived", "5000:1:600"))?;
    let whole = fs::read_to_string(&log)?;
    let torn = format!("{whole}{}", &whole[..whole.len() / 2]);
    fs::write(&log, &torn)?;
    let said = layload(&["learn", "--quick", &log, "--mesh", MESH, "--job", JOB])?;
    assert!(
        said.out.contains("line 2, the last one, is unfinished and left out") && said.out.contains("1 runs"),
        "{}",
        said.out
    );
    refused("torn", &layload(&add(&log, "survived", "5000:1:600"))?, &["line 2", "never finished", "--cut-unfinished"]);
    assert_eq!(fs::read_to_string(&log)?, torn);
    let told = [add(&log, "survived", "5000:1:600"), vec!["--cut-unfinished"]].concat();
    assert!(matches!(layload(&told)?.code, Some(1 | 3)));
    assert_eq!(fs::read_to_string(&log)?, whole.repeat(2));
    Ok(())
}

/// Whatever stands at the end of a log stays there: a whole entry without the end of its line, remarks, notes.
#[test]
fn nothing_at_the_end_is_lost() -> Tested {
    let log = fresh("bench_ends.log")?;
    layload(&add(&log, "survived", "5000:1:600"))?;
    let whole = fs::read_to_string(&log)?;
    for end in [whole.trim_end(), "# a remark without its end", "   ", "\n\n"] {
        fs::write(&log, format!("{whole}{end}"))?;
        assert!(matches!(layload(&add(&log, "survived", "5000:1:600"))?.code, Some(1 | 3)), "{end}");
        let after = fs::read_to_string(&log)?;
        assert!(after.starts_with(&format!("{whole}{end}")) && after.ends_with(&format!("\n{whole}")), "{after}");
        assert!(
            matches!(layload(&["learn", "--quick", &log, "--mesh", MESH, "--job", JOB])?.code, Some(1 | 3)),
            "{end}"
        );
    }
    Ok(())
}

#[test]
fn only_a_log_is_added_to() -> Tested {
    let log = fresh("bench_notes.log")?;
    layload(&add(&log, "survived", "5000:1:600"))?;
    let whole = fs::read_to_string(&log)?;
    for text in ["# notes of somebody else\n", "buy oil", "buy oil\n", "{\"verdict\": 1}", &format!("{whole}buy oil")] {
        fs::write(&log, text)?;
        refused(text, &layload(&add(&log, "survived", "5000:1:600"))?, &[]);
        assert_eq!(fs::read_to_string(&log)?, text);
    }
    Ok(())
}

/// Where there is no answer nothing is added, so that asking again does not count a run twice.
#[test]
fn a_question_that_fails_adds_nothing() -> Tested {
    let log = fresh("bench_fails.log")?;
    let odd = file(
        "bench_fails.toml",
        fs::read_to_string(super::run::top().join(JOB))?.replacen("stroke_mm = ", "stroke_mm = 9", 1),
    )?;
    let own = ["learn", "--quick", &log, "--mesh", MESH, "--add", "survived", "--steps", "5000:1:600"];
    for bad in
        [&["--job", odd.as_str()][..], &["--job", JOB, "--stroke-mm", "400"], &["--job", JOB, "--material", "WOOD"]]
    {
        assert_eq!(layload(&[&own[..], bad].concat())?.code, Some(2), "{bad:?}");
        assert!(fs::metadata(&log).is_err(), "{bad:?}");
    }
    layload(&add(&log, "survived", "5000:1:600"))?;
    let whole = fs::read_to_string(&log)?;
    // The answer is told though the card has no place by then.
    let said = layload(&[&add(&log, "survived", "5000:1:60")[..], &["--card-out", &log, "--overwrite"]].concat())?;
    assert_eq!((said.code, fs::read_to_string(&log)?), (Some(2), whole.clone()));
    // Nor is there room for a card on a full disk.
    if fs::metadata("/dev/full").is_ok() {
        let card = [&add(&log, "survived", "5000:1:60")[..], &["--card-out", "/dev/full"]].concat();
        assert_eq!((layload(&card)?.code, fs::read_to_string(&log)?), (Some(2), whole.clone()));
        let back = ["learn", "--quick", &log, "--mesh", MESH, "--job", JOB, "--take-back", "1"];
        layload(&add(&log, "survived", "5000:1:600"))?;
        let two = fs::read_to_string(&log)?;
        let said = layload(&[&back[..], &["--card-out", "/dev/full"]].concat())?;
        assert_eq!((said.code, fs::read_to_string(&log)?), (Some(2), two));
    }
    Ok(())
}

/// Many runs of one kind cost little more than one: a part is cut once, and runs alike are weighed once.
#[test]
fn runs_alike_count_each() -> Tested {
    let log = fresh("bench_alike.log")?;
    layload(&add(&log, "failed", "5000:1:600"))?;
    let line = fs::read_to_string(&log)?;
    let known = |count: usize| -> Result<Value, Box<dyn std::error::Error>> {
        fs::write(&log, line.repeat(count))?;
        Ok(serde_json::from_str(&layload(&["learn", "--quick", &log, "--mesh", MESH, "--job", JOB, "--json"])?.out)?)
    };
    let (one, many) = (known(1)?, known(40)?);
    let width = |report: &Value| -> Option<f64> {
        let range = report["after"]["life_range"].as_array()?;
        Some(range[1].as_f64()? / range[0].as_f64()?)
    };
    assert_eq!(many["runs"], 40);
    assert!(width(&many) < width(&one), "{:?} {:?}", width(&many), width(&one));
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
    let said = layload(&["learn", "--quick", &log, "--mesh", MESH, "--job", JOB])?;
    assert_eq!(said.code, Some(2));
    assert!(said.complains("--add"), "{}", said.err);
    let broken = file("bench_broken.log", "{\"family\": 3}\n")?;
    assert_eq!(layload(&add(&broken, "failed", "5000:1:60"))?.code, Some(2));
    assert_eq!(fs::read_to_string(&broken)?, "{\"family\": 3}\n");
    Ok(())
}
