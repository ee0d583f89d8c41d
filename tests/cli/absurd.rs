//! Absurd inputs are refused or warned of under the verdict, usual ones are neither: a table of them, each through the
//! whole program.

use std::fs;
use std::path::Path;

use layload_core::job::Job;
use layload_core::material::Card;
use serde_json::Value;

use super::Tested;
use super::run::{file, layload, top};

/// One line of the table.
#[derive(Debug)]
struct Case {
    number: usize,
    base: String,
    key: String,
    value: String,
    expected: String,
    words: String,
}

fn cases() -> Result<Vec<Case>, Box<dyn std::error::Error>> {
    let text = fs::read_to_string(top().join("tests/cli/absurd.tsv"))?;
    let mut list = Vec::new();
    for (number, line) in text.lines().enumerate().filter(|(_, line)| !line.starts_with('#')) {
        let mut columns = line.split('\t').map(String::from);
        let mut next = || columns.next().ok_or(format!("line {} is too short", number + 1));
        let (base, key, value, expected, words) = (next()?, next()?, next()?, next()?, next()?);
        list.push(Case { number: number + 1, base, key, value, expected, words });
    }
    Ok(list)
}

/// Mesh and job of a base.
fn base(name: &str) -> Result<(&'static str, &'static str), String> {
    Ok(match name {
        "rod" | "card" => ("tests/meshes/solid_header.stl", "samples/bench_single.toml"),
        "bearings" => ("samples/bearing_rod.stl", "samples/bench_bearings.toml"),
        "bearings_elsewhere" => ("tests/meshes/solid_header.stl", "samples/bench_bearings.toml"),
        "split" => ("samples/split_rod.stl", "samples/bench_split.toml"),
        "piston" => ("tests/meshes/piston.stl", "samples/bench_piston.toml"),
        "plate" => ("samples/plate_crown_piston.stl", "samples/bench_piston_plate.toml"),
        _ => return Err(format!("no base {name}")),
    })
}

/// Writes the job, and the card beside it, of a case.
fn written(case: &Case, job: &str) -> Result<String, Box<dyn std::error::Error>> {
    let mut job = Job::from_toml(&fs::read_to_string(top().join(job))?)?;
    if case.base == "card" {
        let text = changed_card(&case.key, &case.value)?;
        let path = file(&format!("absurd_{}_card.toml", case.number), text)?;
        let name = path.rsplit('/').next().unwrap_or_default();
        job.set_key("material.name", None)?;
        job.set_key("material.card_file", Some(&format!("\"{name}\"")))?;
    } else if !case.key.is_empty() {
        job.set_key(&case.key, Some(&case.value))?;
    }
    Ok(file(&format!("absurd_{}.toml", case.number), job.to_toml()?)?)
}

/// An embedded card with one value changed.
fn changed_card(key: &str, value: &str) -> Result<String, Box<dyn std::error::Error>> {
    let text = Card::text_of("PA6-CF20")?;
    if key.is_empty() {
        return Ok(text.into());
    }
    let (table, name) = key.rsplit_once('.').unwrap_or(("", key));
    let mut within = String::new();
    let mut lines = Vec::new();
    let mut found = false;
    for line in text.lines() {
        if let Some(inner) = line.strip_prefix('[') {
            within = inner.trim_end_matches(']').into();
        }
        if within == table && line.starts_with(&format!("{name} = ")) {
            found = true;
            lines.push(format!("{name} = {{ value = {value}, source = \"memory\" }}"));
        } else {
            lines.push(line.into());
        }
    }
    assert!(found, "the card has no {key}");
    Ok(lines.join("\n"))
}

/// Runs a case and says what is wrong with the answer.
fn fault(case: &Case) -> Result<Option<String>, Box<dyn std::error::Error>> {
    let (mesh, job) = base(&case.base)?;
    let job = written(case, job)?;
    let said = layload(&["check", "--quick", mesh, "--job", &job])?;
    let answer = said.out.split_whitespace().collect::<Vec<_>>().join(" ");
    let (code, warned) = (said.code, answer.contains(" Unusual "));
    let right = match case.expected.as_str() {
        "refused" => code == Some(2) && said.complains(&case.words) && said.err.contains("help"),
        "warned" => {
            // Directly under the headline, before anything else is said of the part.
            let under = answer.split("Weakest places").next().unwrap_or_default();
            matches!(code, Some(1 | 3)) && under.contains(" Unusual ") && under.contains(&case.words)
        }
        "usual" => matches!(code, Some(1 | 3)) && !warned && said.err.is_empty(),
        other => return Err(format!("line {}: {other}?", case.number).into()),
    };
    Ok((!right).then(|| format!("{case:?}: code {code:?}\n{}\n{}", said.err, &said.out[..said.out.len().min(900)])))
}

fn all(expected: &str, least: usize) -> Tested {
    let cases: Vec<Case> = cases()?.into_iter().filter(|case| case.expected == expected).collect();
    assert!(cases.len() >= least, "only {} cases", cases.len());
    let mut faults = Vec::new();
    for case in &cases {
        faults.extend(fault(case)?);
    }
    assert!(faults.is_empty(), "{} of {}:\n{}", faults.len(), cases.len(), faults.join("\n\n"));
    Ok(())
}

#[test]
fn impossible_inputs_are_refused() -> Tested {
    all("refused", 40)
}

#[test]
fn unusual_inputs_are_warned_of_under_the_verdict() -> Tested {
    all("warned", 40)
}

/// What a check warns of, every other question on the same part and job warns of too, in the same words.
#[test]
fn every_command_warns_of_unusual_inputs() -> Tested {
    for (mesh, job, key, value) in [
        // Of the job alone, and of a job with a part that it hardly goes with.
        ("plain_rod.stl", "bench_single.toml", "engine.compression_ratio", "2.0"),
        ("plain_rod.stl", "bench_single.toml", "engine.bore_mm", "14.0"),
        ("flat_crown_piston.stl", "bench_piston.toml", "engine.compression_ratio", "2.0"),
    ] {
        let place = Path::new(env!("CARGO_TARGET_TMPDIR")).join("unusual");
        if place.exists() {
            fs::remove_dir_all(&place)?;
        }
        fs::create_dir_all(&place)?;
        let path = |name: &str| place.join(name).display().to_string();
        fs::copy(top().join("samples").join(mesh), path("part.stl"))?;
        let mut changed = Job::from_toml(&fs::read_to_string(top().join("samples").join(job))?)?;
        changed.set_key(key, Some(value))?;
        fs::write(path("job.toml"), changed.to_toml()?)?;
        let inputs = "[[inputs]]\nname = \"rpm\"\nlow = 4000.0\nhigh = 6000.0\n";
        let study = format!(
            "job = \"job.toml\"\nmeshes = [\"part.stl\"]\nquick = true\nsampling = \"sobol\"\ncases = 3\n{inputs}"
        );
        fs::write(path("study.toml"), study)?;
        let (part, job, log, out) = (path("part.stl"), path("job.toml"), path("bench.log"), path("out"));
        let check: Value = serde_json::from_str(&layload(&["check", "--quick", &part, "--job", &job, "--json"])?.out)?;
        let warned = check["warnings"].as_array().ok_or("no warnings")?;
        assert!(!warned.is_empty(), "{key}");
        let run = ["--add", "survived", "--steps", "4000:1:60", "--date", "2026-05-04"];
        for asked in [
            vec!["sweep", "--quick", &part, "--job", &job, "--from", "3000", "--to", "5000", "--count", "3"],
            [&["learn", "--quick", &log, "--mesh", &part, "--job", &job][..], &run].concat(),
            vec!["study", &path("study.toml"), "--out", &out],
        ] {
            let said = layload(&asked)?;
            let words = said.out.split_whitespace().collect::<Vec<_>>().join(" ");
            for warning in warned {
                let message = warning["message"].as_str().ok_or("no message")?;
                let end = if message.ends_with('?') { "" } else { "." };
                assert!(words.contains(&format!("Unusual {message}{end}")), "{}: {}{}", asked[0], said.err, said.out);
            }
        }
        let effects: Value = serde_json::from_str(&fs::read_to_string(place.join("out/effects.json"))?)?;
        assert_eq!(effects["warnings"], check["warnings"], "{key}");
    }
    Ok(())
}

#[test]
fn usual_inputs_are_not_warned_of() -> Tested {
    all("usual", 20)
}

/// Embedded cards are usual, or every job that names one would be warned of if it came as a file.
#[test]
fn embedded_cards_are_usual() -> Tested {
    for name in Card::families() {
        let unusual = Card::named(name)?.unusual_values();
        assert!(unusual.is_empty(), "{name}: {unusual:?}");
    }
    Ok(())
}

/// A card whose strengths are all a thousand times too great is refused, and with tenfold ones warned of.
#[test]
fn strengths_in_another_unit() -> Tested {
    let scaled = |factor: f64| -> Result<String, Box<dyn std::error::Error>> {
        let mut card = Card::named("PA12-CF15")?;
        card.visit_values(|input, value| {
            if input.unit == "MPa" && (input.name.contains("strength") || input.name == "bearing pressure") {
                value.value *= factor;
            }
        });
        Ok(card.to_toml()?)
    };
    assert!(Card::from_toml(&scaled(1000.0)?).is_err());
    assert!(!Card::from_toml(&scaled(10.0)?)?.unusual_values().is_empty());
    assert!(Card::from_toml(&scaled(1.2)?)?.unusual_values().is_empty());
    Ok(())
}

/// The warnings are in the JSON too, each with the key to look at.
#[test]
fn warnings_are_data() -> Tested {
    let case = |key: &str, value: &str| Case {
        number: 9000,
        base: "rod".into(),
        key: key.into(),
        value: value.into(),
        expected: "warned".into(),
        words: String::new(),
    };
    let job = written(&case("print.infill_percent", "0.2"), "samples/bench_single.toml")?;
    let said = layload(&["check", "--quick", "tests/meshes/solid_header.stl", "--job", &job, "--json"])?;
    let report: Value = serde_json::from_str(&said.out)?;
    assert_eq!(report["warnings"][0]["key"], "print.infill_percent");
    assert!(report["warnings"][0]["message"].as_str().is_some_and(|text| text.contains("is unusual")));
    Ok(())
}
