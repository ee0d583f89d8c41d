//! The plugin gives the same bytes as the native core.

use layload_core::job::Job;
use layload_core::{
    CheckRequest, FieldRequest, Question, SpeedRange, WallRequest, check_with, directions, quick_look, sweep, walls,
};
use layload_host::{JobTexts, Stress};
use serde::Serialize;

use super::setting::{bytes, goes_with, samples, session, text};

fn pretty(report: &impl Serialize) -> String {
    serde_json::to_string_pretty(report).unwrap()
}

#[test]
fn of_every_sample_with_every_job() {
    let (meshes, mut jobs) = (samples("stl"), samples("toml"));
    // A study names its own job.
    jobs.retain(|name| name != "samples/study.toml");
    assert!(meshes.len() >= 5 && jobs.len() >= 2, "{meshes:?} {jobs:?}");
    let mut session = session();
    for mesh in &meshes {
        let stl = bytes(mesh);
        for name in jobs.iter().filter(|job| goes_with(mesh, job)) {
            let job_text = text(name);
            let job = Job::from_toml(&job_text).unwrap();
            let question = Question { job: &job, card_text: None, pressure_text: None };
            let texts = JobTexts::from(job_text.as_str());
            let native = pretty(&quick_look(&stl, &question, &mut ()).unwrap());
            assert!(native == session.check(&stl, &texts, Stress::Sections).unwrap(), "check of {mesh} by {name}");
            let request = WallRequest::default();
            let native = pretty(&walls(&stl, &question, &request, &mut ()).unwrap().report);
            assert!(native == session.walls(&stl, &texts, None).unwrap(), "walls of {mesh} by {name}");
        }
    }
}

#[test]
fn of_directions_and_speeds() {
    let mut session = session();
    let job_text = text("samples/bench_single.toml");
    let job = Job::from_toml(&job_text).unwrap();
    let question = Question { job: &job, card_text: None, pressure_text: None };
    for mesh in ["samples/plain_rod.stl", "samples/split_rod.stl"] {
        let stl = bytes(mesh);
        let native = pretty(&directions(&stl, &question, 200, None, &mut ()).unwrap());
        assert!(
            native == session.directions(&stl, &job_text.as_str().into(), 200, Stress::Sections).unwrap(),
            "{mesh}"
        );
        let range = SpeedRange::new(1000.0, 9000.0, 9).unwrap();
        let native = pretty(&sweep(&stl, &question, &range, None, &mut ()).unwrap());
        let texts: JobTexts<'_> = job_text.as_str().into();
        assert!(native == session.sweep(&stl, &texts, 1000.0, 9000.0, 9, Stress::Sections).unwrap(), "{mesh}");
    }
}

/// By the stress field one margin in every question, in the sandbox and outside of it. So few cells that the test is quick.
#[test]
fn of_every_question_by_the_field() {
    const FEW: u32 = 3000;
    let field = Some(FieldRequest { cells: FEW as usize });
    let mut session = session();
    let job_text = text("samples/bench_single.toml");
    let job = Job::from_toml(&job_text).unwrap();
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let (stl, texts) = (bytes("samples/plain_rod.stl"), JobTexts::from(job_text.as_str()));
    let request = CheckRequest { facets: false, field };
    let native = pretty(&check_with(&stl, &question, &request, &mut ()).unwrap().report);
    assert!(native == session.check(&stl, &texts, Stress::Cells(FEW)).unwrap());
    let range = SpeedRange::new(4000.0, 6000.0, 3).unwrap();
    let native = pretty(&sweep(&stl, &question, &range, field, &mut ()).unwrap());
    assert!(native == session.sweep(&stl, &texts, 4000.0, 6000.0, 3, Stress::Cells(FEW)).unwrap());
    let native = pretty(&directions(&stl, &question, 40, field, &mut ()).unwrap());
    assert!(native == session.directions(&stl, &texts, 40, Stress::Cells(FEW)).unwrap());
}

#[test]
fn of_jobs_that_name_files() {
    let mut session = session();
    let card = layload_core::material::Card::text_of("PEEK").unwrap();
    let angles = (0..720).map(|degree| {
        let pressure = if (5..50).contains(&degree) { 18.0 } else { 1.1 };
        format!("{degree},{pressure}\n")
    });
    let table = format!("angle_deg,pressure_bar\n{}", angles.collect::<String>());
    let job_text = text("samples/bench_single.toml")
        .replace("name = \"PA12-CF15\"", "card_file = \"own.toml\"")
        .replace("peak_pressure_bar = 20.0", "pressure_table = \"measured.csv\"");
    let job = Job::from_toml(&job_text).unwrap();
    let question = Question { job: &job, card_text: Some(card), pressure_text: Some(&table) };
    let stl = bytes("samples/plain_rod.stl");
    let native = pretty(&quick_look(&stl, &question, &mut ()).unwrap());
    let texts = JobTexts { job: &job_text, card: Some(card), pressure: Some(&table), history: None };
    assert!(native == session.check(&stl, &texts, Stress::Sections).unwrap());
}
