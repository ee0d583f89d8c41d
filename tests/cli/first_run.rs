//! What somebody needs who runs it for the first time: a job file, words explained, completions, a manual.

use std::collections::BTreeSet;
use std::fs;

use layload_core::study::{InputName, StudyPlan};
use serde_json::Value;

use super::Tested;
use super::run::{file, layload};

fn new_job(name: &str, part: &str) -> Result<String, Box<dyn std::error::Error>> {
    let path = file(name, b"")?;
    fs::remove_file(&path)?;
    let said = layload(&["new-job", &path, "--part", part])?;
    assert_eq!((said.code, said.err.as_str()), (Some(0), ""));
    Ok(path)
}

#[test]
fn a_new_job_can_be_checked_as_it_is() -> Tested {
    for (part, mesh) in [("rod", "samples/plain_rod.stl"), ("piston", "samples/flat_crown_piston.stl")] {
        let path = new_job(&format!("new_{part}.toml"), part)?;
        let said = layload(&["check", "--quick", mesh, "--job", &path])?;
        assert!(matches!(said.code, Some(1 | 3)), "{}", said.err);
        for line in fs::read_to_string(&path)?.lines() {
            assert!(line.chars().count() <= 80, "{line}");
        }
    }
    Ok(())
}

#[test]
fn a_new_job_is_not_written_over_another() -> Tested {
    let path = file("taken_job.toml", "mine")?;
    let said = layload(&["new-job", &path])?;
    assert_eq!((said.code, said.out.as_str()), (Some(2), ""));
    assert_eq!(fs::read_to_string(&path)?, "mine");
    assert_eq!(layload(&["new-job", &path, "--overwrite"])?.code, Some(0));
    assert_ne!(fs::read_to_string(&path)?, "mine");
    Ok(())
}

#[test]
fn a_new_study_is_one_and_tells_every_input() -> Tested {
    let path = file("new_study.toml", b"")?;
    fs::remove_file(&path)?;
    let said = layload(&["new-study", &path, "--mesh", "a \"rod\".stl", "--job", "engine.toml"])?;
    assert_eq!((said.code, said.err.as_str()), (Some(0), ""));
    let text = fs::read_to_string(&path)?;
    let plan = StudyPlan::from_toml(&text)?;
    assert_eq!((plan.meshes, plan.job.as_str()), (vec!["a \"rod\".stl".to_owned()], "engine.toml"));
    // With the # off every input that there is stands in it, and it is still a study.
    let told = text.lines().map(|line| match line.strip_prefix("# ") {
        Some(rest) if rest.starts_with("[[") || rest.contains(" = ") => rest,
        _ => line,
    });
    let whole = StudyPlan::from_toml(&told.collect::<Vec<_>>().join("\n"))?;
    for name in InputName::all() {
        // Several meshes are an input by themselves.
        let told = whole.inputs.iter().any(|input| input.name == *name) || *name == InputName::Mesh;
        assert!(told, "{} is not told", name.word());
    }
    for line in text.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    Ok(())
}

/// Keys of all objects in a schema.
fn keys(schema: &Value, found: &mut BTreeSet<String>) {
    if let Some(properties) = schema.get("properties").and_then(Value::as_object) {
        found.extend(properties.keys().cloned());
    }
    match schema {
        Value::Object(map) => map.values().for_each(|value| keys(value, found)),
        Value::Array(list) => list.iter().for_each(|value| keys(value, found)),
        _ => {}
    }
}

#[test]
fn every_key_of_a_job_is_in_a_new_one() -> Tested {
    let schema = schemars::schema_for!(layload_core::job::Job).to_value();
    let mut wanted = BTreeSet::new();
    keys(&schema, &mut wanted);
    assert!(wanted.len() > 60, "{}", wanted.len());
    let all = ["rod", "piston", "mount"];
    let all = all.map(|part| new_job(&format!("keys_{part}.toml"), part)).into_iter().collect::<Result<Vec<_>, _>>()?;
    let text = all.iter().map(fs::read_to_string).collect::<std::io::Result<Vec<_>>>()?.concat();
    let missing: Vec<&String> =
        wanted.iter().filter(|key| !text.contains(&format!("{key} =")) && !text.contains(&format!("{key}]"))).collect();
    assert!(missing.is_empty(), "no word of {missing:?}");
    Ok(())
}

/// Every line left out is a key that a job may have, with a value of its kind.
#[test]
fn lines_left_out_can_be_put_in() -> Tested {
    for part in ["rod", "piston"] {
        let text = fs::read_to_string(new_job(&format!("out_{part}.toml"), part)?)?;
        let lines: Vec<&str> = text.lines().collect();
        let mut tried = 0;
        for (index, line) in lines.iter().enumerate() {
            let Some(key) = line.strip_prefix("# ").filter(|rest| is_key(rest)) else { continue };
            // A table left out as a whole is put in with its keys, up to what excludes another.
            let mut changed: Vec<String> = lines.iter().map(ToString::to_string).collect();
            changed[index] = key.to_string();
            if let Some(head) =
                (0..index).rev().take_while(|k| !lines[*k].is_empty()).find(|k| lines[*k].starts_with("# ["))
            {
                changed[head] = lines[head][2..].into();
                if lines[head].contains("layers") {
                    let own = (head..lines.len()).take_while(|k| !lines[*k].is_empty());
                    for k in own.filter(|k| lines[*k].strip_prefix("# ").is_some_and(is_key)) {
                        changed[k] = lines[k][2..].into();
                    }
                }
            }
            let job = layload_core::job::Job::from_toml(&changed.join("\n"));
            assert!(job.is_ok(), "{line}: {job:?}");
            tried += 1;
        }
        assert!(tried > 20, "{part}: only {tried} lines");
    }
    Ok(())
}

fn is_key(line: &str) -> bool {
    line.split_once(" = ")
        .is_some_and(|(key, _)| key.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_'))
}

/// Every failure mode that the JSON can name.
fn modes() -> Result<Vec<String>, Box<dyn std::error::Error>> {
    let schema: Value = serde_json::from_str(&layload(&["schema", "check"])?.out)?;
    let variants = schema.pointer("/$defs/Mode/oneOf").and_then(Value::as_array).ok_or("no modes")?;
    Ok(variants.iter().filter_map(|variant| variant["const"].as_str().map(String::from)).collect())
}

#[test]
fn every_mode_and_every_source_is_explained() -> Tested {
    let modes = modes()?;
    assert!(modes.len() >= 15, "{modes:?}");
    let sources = ["given", "mesh", "coupon", "published", "common practice", "memory"];
    for word in modes.iter().map(String::as_str).chain(sources) {
        let said = layload(&["explain", word])?;
        assert_eq!((said.code, said.err.as_str()), (Some(0), ""), "{word}");
        assert!(said.out.lines().count() >= 3, "{word}: {}", said.out);
    }
    Ok(())
}

/// Words that the text puts before its lines, over its columns and beside its margins.
#[test]
fn every_term_of_the_text_is_explained() -> Tested {
    let mut terms: BTreeSet<String> = [
        "thinnest",
        "axial force",
        "stress",
        "used",
        "area",
        "margin",
        "place",
        "What a change does",
        "Thin places",
        "Along the rod",
        "Length and fits",
    ]
    .map(String::from)
    .into();
    for (mesh, job) in [
        ("samples/thin_web_rod.stl", "samples/bench_single.toml"),
        ("samples/split_rod.stl", "samples/bench_single.toml"),
        ("samples/bearing_rod.stl", "samples/bench_bearings.toml"),
        ("samples/flat_crown_piston.stl", "samples/bench_piston.toml"),
    ] {
        let said = layload(&["check", "--quick", mesh, "--job", job, "--stations"])?;
        let screen = said.out.split("\nMore  ").next().unwrap_or_default();
        // The answer's own word, titles and what stands before lines, in twelve columns where a blank ends it.
        let word = |line: &str| {
            if line.chars().nth(11) == Some(' ') && line.chars().nth(12).is_some_and(|sign| sign != ' ') {
                return line.chars().take(11).collect::<String>().trim().to_string();
            }
            let end = line.find([':', ',']).unwrap_or(line.len()).min(line.find("  ").unwrap_or(line.len()));
            line[..end].to_string()
        };
        terms.extend(screen.lines().filter(|line| !line.is_empty() && !line.starts_with(' ')).map(word));
        let report: Value = serde_json::from_str(&layload(&["check", "--quick", mesh, "--job", job, "--json"])?.out)?;
        let rows = said.out.split("Failure modes").nth(1).unwrap_or_default().lines().skip(1);
        let rows = rows.take_while(|line| !line.is_empty() && !line.starts_with("  -:"));
        // The words of a mode stand in a column of their own.
        let count = rows.clone().count();
        terms.extend(rows.map(|row| row.chars().skip(12).take(21).collect::<String>().trim().to_string()));
        assert_eq!(count, report["modes"].as_array().map_or(0, Vec::len));
    }
    assert!(terms.len() > 25, "{terms:?}");
    for term in terms {
        let said = layload(&["explain", &term])?;
        assert_eq!(said.code, Some(0), "`{term}`: {}", said.err);
    }
    Ok(())
}

#[test]
fn explanations_fit_the_terminal_and_unknown_words_are_refused() -> Tested {
    let list = layload(&["explain"])?;
    assert!(list.out.lines().count() > 60);
    for line in list.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    let said = layload(&["explain", "flux", "capacitor"])?;
    assert_eq!((said.code, said.out.as_str()), (Some(2), ""));
    assert!(said.complains("flux capacitor"), "{}", said.err);
    // Blanks, hyphens and capitals do not matter.
    assert_eq!(layload(&["explain", "PIN", "pressure"])?.out, layload(&["explain", "pin-pressure"])?.out);
    Ok(())
}

#[test]
fn completions_and_manual_name_every_command() -> Tested {
    let commands = ["check", "directions", "sweep", "walls", "materials", "new-job", "explain", "schema"];
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let said = layload(&["completions", shell])?;
        assert_eq!((said.code, said.err.as_str()), (Some(0), ""), "{shell}");
        for command in commands {
            assert!(said.out.contains(command), "{shell}: {command}");
        }
        assert!(said.out.contains("build-direction"), "{shell}");
    }
    let whole = layload(&["man"])?;
    assert!(whole.out.contains(".TH layload 1"), "{}", whole.out);
    for command in commands {
        let page = layload(&["man", command])?;
        assert_eq!(page.code, Some(0), "{command}");
        assert!(
            page.out.contains(&format!(".TH layload\\-{command}")) || page.out.contains(".TH layload-"),
            "{}",
            page.out
        );
    }
    assert_eq!(layload(&["man", "nothing"])?.code, Some(2));
    Ok(())
}

#[test]
fn complaints_fit_the_terminal() -> Tested {
    for arguments in [
        &["chek"][..],
        &["check"],
        &["check", "x.stl", "--small-end"],
        &["check", "x.stl", "--small-end", "1,2"],
        &["check", "x.stl", "--build-direction", "sideways,and,then,up,again,and,again,and,again,until,it,is,done"],
        &["check", "x.stl", "--mesh-unit", "furlong"],
        &[
            "check",
            "--quick",
            "samples/plain_rod.stl",
            "--small-end",
            "40,0,0,13",
            "--job",
            "samples/bench_single.toml",
        ],
        &["sweep", "--quick", "samples/plain_rod.stl"],
        &["check", "--quick", "samples/plain_rod.stl", "--rpm", "1", "--unheard-of-option-of-quite-some-length"],
    ] {
        let said = layload(arguments)?;
        assert_eq!((said.code, said.out.as_str()), (Some(2), ""), "{arguments:?}");
        for line in said.err.lines() {
            assert!(line.chars().count() <= 80, "{arguments:?}: {line}");
        }
    }
    // Of two bores one may be named; where it is none, that is said and nothing of the engine.
    let one = |place: &str| {
        let named = ["--small-end", place, "--pin-axis", "0,0,1", "--job", "samples/bench_single.toml"];
        layload(&[&["check", "--quick", "samples/plain_rod.stl"][..], &named].concat())
    };
    assert!(matches!(one("20,15,0,13")?.code, Some(1 | 3)));
    let nowhere = one("40,0,0,13")?;
    assert!(nowhere.complains("no wall of 13.00 mm") && !nowhere.complains("--stroke-mm"), "{}", nowhere.err);
    Ok(())
}

#[test]
fn a_bad_build_direction_is_told_what_would_do() -> Tested {
    let path =
        super::run::changed_job("bad_direction.toml", "build_direction = \"flat\"", "build_direction = \"sideways\"")?;
    let said = layload(&["check", "--quick", "samples/plain_rod.stl", "--job", &path])?;
    assert_eq!(said.code, Some(2));
    assert!(said.complains("on-edge") && said.complains("upright"), "{}", said.err);
    assert!(!said.complains("untagged"), "{}", said.err);
    Ok(())
}
