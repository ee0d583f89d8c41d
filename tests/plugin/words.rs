//! The plugin's sentences are those that the command line prints, for rods and pistons alike.

use std::process::Command;

use layload_core::job::Job;
use layload_core::part::PartKind;
use layload_host::Stress;
use layload_host::checker::AnswerWords;

use super::setting::{bytes, goes_with, samples, session, text};

/// The first paragraphs of a text, one a line, as they were before they were wrapped.
fn paragraphs(text: &str) -> Vec<String> {
    let head = text.split("\n\n").next().unwrap_or_default();
    let mut list: Vec<String> = Vec::new();
    for line in head.lines() {
        // A paragraph begins at the margin, with the word that says what it is about.
        match list.last_mut().filter(|_| line.starts_with(' ')) {
            Some(paragraph) => *paragraph = format!("{paragraph} {}", line.trim()),
            None => list.push(line.split_whitespace().collect::<Vec<_>>().join(" ")),
        }
    }
    list
}

/// What the command line answers.
fn printed(mesh: &str, job: &str) -> Vec<String> {
    let asked = ["check", "--quick", mesh, "--job", job];
    let top = concat!(env!("CARGO_MANIFEST_DIR"), "/..");
    let said = Command::new(env!("CARGO_BIN_EXE_layload")).args(asked).current_dir(top).output().unwrap();
    assert!(matches!(said.status.code(), Some(1 | 3)), "{mesh} by {job}: {}", String::from_utf8_lossy(&said.stderr));
    paragraphs(&String::from_utf8(said.stdout).unwrap())
}

fn shown(words: &AnswerWords) -> Vec<String> {
    let first = format!("{} {}", words.word, words.sentence);
    let lines = words.lines.iter().map(|line| format!("{} {}", line.about, line.text));
    [first].into_iter().chain(lines).collect()
}

#[test]
fn of_every_sample_with_every_job() {
    let (meshes, mut jobs) = (samples("stl"), samples("toml"));
    // A study names its own job.
    jobs.retain(|name| name != "samples/study.toml");
    let mut session = session();
    let (mut rods, mut pistons) = (0, 0);
    for mesh in &meshes {
        let stl = bytes(mesh);
        let read = layload_core::load(&stl, &Job::default(), &mut ()).unwrap();
        let piston = read.part.kind() == PartKind::Piston;
        for job in jobs.iter().filter(|job| goes_with(mesh, job)) {
            let job_text = text(job);
            let words = session.words(&stl, &job_text.as_str().into(), Stress::Sections).unwrap();
            assert_eq!(shown(&words), printed(mesh, job), "{mesh} by {job}");
            let all = [shown(&words), words.advice.clone()].concat().join(" ");
            if piston {
                pistons += 1;
                let of_rods = ["rod in ten", "rods in ten", "the rods run", "shank", "without limit"];
                let slip = of_rods.iter().find(|slip| all.contains(**slip));
                assert!(slip.is_none() && all.contains("crown"), "{mesh} by {job}: {slip:?} in {all}");
            } else {
                rods += 1;
                assert!(!all.contains("piston in ten") && !all.contains("pistons in ten"), "{mesh} by {job}: {all}");
                assert!(all.contains("shank"), "{mesh} by {job}: {all}");
            }
        }
    }
    assert!(rods >= 10 && pistons >= 6, "{rods} {pistons}");
}

/// A pose that a host draws is the one that a check takes.
#[test]
fn of_poses() {
    let mut session = session();
    for (mesh, job, usual) in [
        ("samples/plain_rod.stl", "samples/bench_single.toml", "flat"),
        ("samples/flat_crown_piston.stl", "samples/bench_piston.toml", "upright"),
    ] {
        let (stl, job_text) = (bytes(mesh), text(job));
        let poses = session.poses(&stl, &job_text.as_str().into()).unwrap();
        let chosen: Vec<&str> = poses.iter().filter(|pose| pose.usual).map(|pose| pose.name.as_str()).collect();
        assert_eq!((poses.len(), chosen), (3, vec![usual]), "{mesh}");
        let with = |direction: &str| {
            let mut job = Job::from_toml(&job_text).unwrap();
            job.set_key("print.build_direction", Some(direction)).unwrap();
            let report = session_check(&stl, &job);
            [report.print.angle_to_axis_deg, report.print.angle_to_bores_deg, report.verdict.margin]
        };
        for pose in &poses {
            let [x, y, z] = [pose.build_direction.x, pose.build_direction.y, pose.build_direction.z];
            let (named, along) = (with(&format!("\"{}\"", pose.name)), with(&format!("[{x:?}, {y:?}, {z:?}]")));
            for (a, b) in named.into_iter().zip(along) {
                // Two ways to the same direction differ by rounding; angles near nought by its root.
                assert!((a - b).abs() < 1e-5 * (1.0 + a.abs()), "{mesh} {}: {a} {b}", pose.name);
            }
        }
    }
}

fn session_check(stl: &[u8], job: &Job) -> layload_core::report::Report {
    let question = layload_core::Question { job, card_text: None, pressure_text: None };
    layload_core::quick_look(stl, &question, &mut ()).unwrap()
}
