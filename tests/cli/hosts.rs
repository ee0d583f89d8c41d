//! What bindings to other languages share gives the very bytes that the program prints.

use std::fs;

use layload_ask::{Job, Part, Purpose, Refusal, Triangles, ask, compare};

use super::Tested;
use super::run::{layload, top};

const ROD: &str = "samples/plain_rod.stl";
const OTHER_ROD: &str = "samples/i_shank_rod.stl";
const ROD_JOB: &str = "samples/bench_single.toml";
const PISTON: &str = "samples/flat_crown_piston.stl";
const PISTON_JOB: &str = "samples/bench_piston.toml";

fn job(name: &str) -> Result<Job, Box<dyn std::error::Error>> {
    Ok(Job::from_text(&fs::read_to_string(top().join(name))?)?)
}

fn part(mesh: &str, job: &Job) -> Result<Part, Box<dyn std::error::Error>> {
    Ok(Part::from_stl(&fs::read(top().join(mesh))?, job, &mut |_, _| true)?)
}

#[test]
fn every_question_gets_the_bytes_of_the_program() -> Tested {
    let rod = (ROD, ROD_JOB);
    let piston = (PISTON, PISTON_JOB);
    let questions: [(_, _, &[&str]); 8] = [
        (rod, r#"{"question": "check", "quick": true}"#, &["check", "--quick"]),
        (rod, r#"{"question": "check", "cells": 2000}"#, &["check", "--cells", "2000"]),
        (rod, r#"{"question": "check", "quick": true, "facets": true}"#, &["check", "--quick", "--facets"]),
        (piston, r#"{"question": "check", "quick": true}"#, &["check", "--quick"]),
        (piston, r#"{"question": "walls"}"#, &["walls"]),
        (rod, r#"{"question": "walls", "least_mm": 3.0, "facets": true}"#, &["walls", "--least-mm", "3", "--facets"]),
        (rod, r#"{"question": "directions", "quick": true, "count": 50}"#, &["directions", "--quick", "--count", "50"]),
        (
            rod,
            r#"{"question": "sweep", "quick": true, "from_rpm": 3000, "to_rpm": 7000, "count": 3}"#,
            &["sweep", "--quick", "--from", "3000", "--to", "7000", "--count", "3"],
        ),
    ];
    for ((mesh, job_file), question, options) in questions {
        let job = job(job_file)?;
        let answer = ask(&part(mesh, &job)?, &job, question, &mut |_, _| true)?;
        let said = layload(&[options, &[mesh, "--job", job_file, "--json"]].concat())?;
        assert!(answer.json() == said.out, "{question} of {mesh}");
        assert!(answer.words().lines().count() > 2, "{question}: {}", answer.words());
    }
    Ok(())
}

#[test]
fn two_parts_are_compared_as_by_the_program() -> Tested {
    let job = job(ROD_JOB)?;
    let (old, new) = (part(ROD, &job)?, part(OTHER_ROD, &job)?);
    let question = r#"{"question": "compare", "quick": true}"#;
    let answer = compare((&old, &job), (&new, &job), question, &mut |_, _| true)?;
    let said = layload(&["compare", "--quick", ROD, OTHER_ROD, "--job", ROD_JOB, "--json"])?;
    assert!(answer.json() == said.out);
    Ok(())
}

/// A surface in memory gives the answer of the STL with the same points.
#[test]
fn triangles_give_the_answer_of_their_stl() -> Tested {
    let job = job(ROD_JOB)?;
    let stl = fs::read(top().join(ROD))?;
    let corner =
        |bytes: &[u8]| [0, 4, 8].map(|at| f64::from(f32::from_le_bytes(std::array::from_fn(|k| bytes[at + k]))));
    let points: Vec<[f64; 3]> =
        stl[84..].chunks_exact(50).flat_map(|facet| [12, 24, 36].map(|at| corner(&facet[at..at + 12]))).collect();
    let corners: Vec<[u32; 3]> = (0..points.len() as u32 / 3).map(|facet| [0, 1, 2].map(|k| 3 * facet + k)).collect();
    let question = r#"{"question": "check", "quick": true, "paint": true}"#;
    let surface = Triangles { points: &points, corners: &corners };
    let ours = ask(&Part::from_triangles(surface, &job, &mut |_, _| true)?, &job, question, &mut |_, _| true)?;
    let theirs = ask(&part(ROD, &job)?, &job, question, &mut |_, _| true)?;
    assert_eq!(ours.json(), theirs.json());
    let painted = ours.painted().ok_or("not painted")?;
    assert_eq!(painted.values.len(), corners.len());
    assert_eq!(Some(painted), theirs.painted());
    Ok(())
}

#[test]
fn a_job_may_come_as_json() -> Tested {
    let toml = "[engine]\nstroke_mm = 46.0\n[engine.gas]\npeak_pressure_bar = 20.0\n[[duty.steps]]\nrpm = 5000.0\n\
                throttle = 1.0\nseconds = 60.0";
    let json = r#"{"engine": {"stroke_mm": 46, "gas": {"peak_pressure_bar": 20.0}},
        "duty": {"steps": [{"rpm": 5000, "throttle": 1, "seconds": 60.0}]}}"#;
    assert_eq!(Job::from_json(json)?.to_text()?, Job::from_text(toml)?.to_text()?);
    assert_eq!(Job::from_json(r#"{"engine": {"stroke": 1}}"#).err().ok_or("read")?.code, "job-format");
    assert_eq!(Job::from_json("{").err().ok_or("read")?.code, "job-unreadable");
    Ok(())
}

#[test]
fn files_that_a_job_names_are_told_and_attached() -> Tested {
    let text = fs::read_to_string(top().join(ROD_JOB))?.replace("name = \"PA12-CF15\"", "card_file = \"own.toml\"");
    let mut job = Job::from_text(&text)?;
    let missing = job.missing_files();
    assert_eq!(
        missing.iter().map(|file| (file.name.as_str(), file.purpose)).collect::<Vec<_>>(),
        [("own.toml", Purpose::Card)]
    );
    let question = r#"{"question": "check", "quick": true}"#;
    let rod = part(ROD, &job)?;
    assert!(ask(&rod, &job, question, &mut |_, _| true).is_err());
    let card = layload(&["materials", "PA12-CF15"])?.out;
    job.attach(Purpose::Card, card);
    assert!(job.missing_files().is_empty());
    assert!(ask(&rod, &job, question, &mut |_, _| true).is_ok());
    Ok(())
}

#[test]
fn progress_never_falls_and_stops_the_work() -> Tested {
    let job = job(ROD_JOB)?;
    let rod = part(ROD, &job)?;
    for question in [
        r#"{"question": "check", "cells": 2000}"#,
        r#"{"question": "directions", "cells": 2000, "count": 20}"#,
        r#"{"question": "walls"}"#,
    ] {
        let mut shares = Vec::new();
        ask(&rod, &job, question, &mut |_, share| {
            shares.push(share);
            true
        })?;
        assert!(shares.is_sorted() && shares.iter().all(|share| (0.0..1.0).contains(share)), "{question}: {shares:?}");
        assert!(shares.last() > Some(&0.3), "{question}: {shares:?}");
        for calls in [1, shares.len()] {
            let mut left = calls;
            let stopped = ask(&rod, &job, question, &mut |_, _| {
                left -= 1;
                left > 0
            });
            assert_eq!(stopped.err().ok_or("not stopped")?.code, "cancelled", "{question}, call {calls}");
        }
    }
    Ok(())
}

#[test]
fn refusals_have_a_code_a_key_and_help_without_options() -> Tested {
    let whole = job(ROD_JOB)?;
    let rod = part(ROD, &whole)?;
    let mut without = whole.clone();
    without.set_key("engine.stroke_mm", None)?;
    let quiet = |question: &str, job: &Job| ask(&rod, job, question, &mut |_, _| true).map(|_| ());
    let check = r#"{"question": "check", "quick": true}"#;
    let open = fs::read(top().join("tests/meshes/open.stl"));
    let mesh = open.map(|stl| Part::from_stl(&stl, &whole, &mut |_, _| true).map(|_| ()))?;
    let outside = Triangles { points: &[[0.0; 3]; 3], corners: &[[0, 1, 3]] };
    let cases: [(Result<(), Refusal>, &str, Option<&str>); 8] = [
        (quiet(check, &without), "job-missing", Some("engine.stroke_mm")),
        (quiet("check", &whole), "question-unreadable", None),
        (quiet(r#"{"question": "check", "cell": 5}"#, &whole), "question-unreadable", None),
        (quiet(r#"{"question": "check", "quick": true, "cells": 5}"#, &whole), "question-unreadable", None),
        (quiet(r#"{"question": "compare"}"#, &whole), "question-unreadable", None),
        (quiet(r#"{"question": "sweep", "from_rpm": 9, "to_rpm": 3}"#, &whole), "speed-range", None),
        (mesh, "mesh-open", None),
        (Part::from_triangles(outside, &whole, &mut |_, _| true).map(|_| ()), "mesh-no-such-point", None),
    ];
    for (result, code, key) in cases {
        let refused = result.err().ok_or(code)?;
        assert_eq!((refused.code.as_str(), refused.key.as_deref()), (code, key));
        assert!(!refused.message.is_empty() && !refused.help.is_empty() && !refused.help.contains("--"), "{refused:?}");
    }
    Ok(())
}
