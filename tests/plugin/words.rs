//! The plugin's sentences are those that the command line prints, for rods and pistons alike.

use std::process::Command;

use layload_core::job::Job;
use layload_core::part::PartKind;
use layload_host::Stress;
use layload_host::checker::AnswerWords;

use super::setting::{bytes, goes_with, samples, session, text};

/// Words with one blank between them, however their lines were broken.
fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What the command line answers on its first screen.
fn printed(mesh: &str, job: &str) -> String {
    let asked = ["check", "--quick", mesh, "--job", job];
    let top = concat!(env!("CARGO_MANIFEST_DIR"), "/..");
    let said = Command::new(env!("CARGO_BIN_EXE_layload"))
        .args(asked)
        .current_dir(top)
        .env_remove("COLUMNS")
        .output()
        .unwrap();
    assert!(matches!(said.status.code(), Some(1 | 3)), "{mesh} by {job}: {}", String::from_utf8_lossy(&said.stderr));
    plain(&String::from_utf8(said.stdout).unwrap())
}

/// Whether every sentence of the plugin is on the screen, in the same order. The line of what fails first is the first row of
/// the screen's table, and the speed stands in its verdict.
fn told_alike(words: &AnswerWords, screen: &str, context: &str) {
    assert!(
        screen.starts_with(&format!("{}: {}", words.word, words.sentence)),
        "{context}: {} | {screen}",
        words.sentence
    );
    let mut from = 0;
    for line in words.lines.iter().filter(|line| !matches!(line.about.as_str(), "First" | "Speed")) {
        let told = format!("{} {}", line.about, line.text);
        let at = screen[from..].find(&told);
        assert!(at.is_some(), "{context}: {told} | {screen}");
        from += at.unwrap_or(0) + told.len();
    }
    let of = |about: &str| words.lines.iter().find(|line| line.about == about).map(|line| line.text.to_lowercase());
    assert!(screen.to_lowercase().contains(&of("Speed").unwrap_or_else(|| "no speed".into())), "{context}: {screen}");
    let first = of("First").unwrap_or_default();
    let row = screen.split("z in mm) ").nth(1).unwrap_or_default().split(' ').skip(1).collect::<Vec<_>>().join(" ");
    let mode = first.split("to fail: ").nth(1).and_then(|rest| rest.split(';').next()).unwrap_or("no mode");
    assert!(row.starts_with(mode), "{context}: {mode} | {row}");
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
            told_alike(&words, &printed(mesh, job), &format!("{mesh} by {job}"));
            let all = [shown(&words), words.advice.clone()].concat().join(" ");
            if piston {
                pistons += 1;
                let of_rods = ["of rods", "the rod ", "shank", "without limit"];
                let slip = of_rods.iter().find(|slip| all.contains(**slip));
                assert!(slip.is_none() && all.contains("crown"), "{mesh} by {job}: {slip:?} in {all}");
            } else {
                rods += 1;
                assert!(!all.contains("of pistons"), "{mesh} by {job}: {all}");
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
