//! The stress field in the plugin.

use std::sync::mpsc;

use layload_core::job::Job;
use layload_core::{CheckRequest, FieldRequest, Question, check_with};
use layload_host::{Cancel, HostError, JobTexts, Limits, Stress};

use super::setting::{bytes, job, plugin, session, text};

/// So few cells that a test is quick; bytes are looked at, not stress.
const FEW: u32 = 3000;

/// The same bytes and colours as the native core, whose 64 bits and threads change nothing, in little more memory: grids
/// that would be solved at once by a count of work that has wrapped round in 32 bits took more than a gigabyte.
#[test]
fn is_that_of_the_native_program() {
    let (stl, text) = (bytes("samples/plain_rod.stl"), job());
    let used = equal(&stl, &text, FEW);
    // The sections alone paint otherwise.
    let job = Job::from_toml(&text).unwrap();
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let plain = CheckRequest { facets: true, field: None };
    let plain = check_with(&stl, &question, &plain, &mut ()).unwrap().facets.unwrap().values;
    assert!(plain.iter().zip(&used).any(|(plain, field)| plain.is_some_and(|p| (p - f64::from(*field)).abs() > 0.05)));
}

#[test]
fn of_a_piston_too() {
    equal(&bytes("tests/meshes/piston.stl"), &text("samples/bench_piston.toml"), 1500);
}

/// A part of any kind has no sections: it is answered by the field alone, with the table that its job names.
#[test]
fn of_a_part_of_any_kind() {
    let (stl, told) = (bytes("samples/places/mount.stl"), text("samples/places/mount.toml"));
    let table = text("samples/places/mount.csv");
    let mut job = Job::from_toml(&told).unwrap();
    job.history.take(&table).unwrap();
    let used = equal(&stl, &job.to_toml().unwrap(), FEW);
    assert!(used.iter().any(|used| *used > 0.0));
    // The table that the job names is asked for, and by itself gives the same answer.
    let texts = JobTexts { history: Some(&table), ..JobTexts::from(told.as_str()) };
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let request = CheckRequest { facets: false, field: Some(FieldRequest { cells: FEW as usize }) };
    let native = check_with(&stl, &question, &request, &mut ()).unwrap().report;
    assert!(
        serde_json::to_string_pretty(&native).unwrap() == session().check(&stl, &texts, Stress::Cells(FEW)).unwrap()
    );
    // What is wrong with it, or that sections cannot answer, is told.
    let code = |answer: Result<String, HostError>| match answer {
        Err(HostError::Refused { code, .. }) => code,
        other => panic!("{other:?}"),
    };
    let wrong = JobTexts { history: Some("angle_deg,shake_up\n0\n"), ..texts };
    assert_eq!(code(session().check(&stl, &wrong, Stress::Cells(FEW))), "place-history");
    assert_eq!(code(session().check(&stl, &told.as_str().into(), Stress::Cells(FEW))), "place-history");
    assert_eq!(code(session().check(&stl, &texts, Stress::Sections)), "field-only");
}

/// What paints each facet, when bytes and colours are those of the native core.
fn equal(stl: &[u8], text: &str, cells: u32) -> Vec<f32> {
    let limits = Limits { memory_mib: 256, ..Limits::default() };
    let mut session = plugin().open(limits, Cancel::new(), |_, _, _| {}).unwrap();
    let (json, used) = session.check_painted(stl, &text.into(), Stress::Cells(cells)).unwrap();
    println!("{} MiB", session.memory_bytes() >> 20);
    let job = Job::from_toml(text).unwrap();
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let request = CheckRequest { facets: true, field: Some(FieldRequest { cells: cells as usize }) };
    let native = check_with(stl, &question, &request, &mut ()).unwrap();
    assert!(serde_json::to_string_pretty(&native.report).unwrap() == json);
    #[allow(clippy::cast_possible_truncation)]
    let known: Vec<u32> = {
        let values = native.facets.unwrap().values;
        values.iter().map(|value| value.map_or(f32::NAN, |value| value as f32).to_bits()).collect()
    };
    assert!(known.len() > 100 && known == used.iter().map(|value| value.to_bits()).collect::<Vec<_>>());
    used
}

#[test]
fn is_left_in_the_middle() {
    let cancel = Cancel::new();
    let from_within = cancel.clone();
    let (tell, told) = mpsc::channel();
    let mut session = plugin()
        .open(Limits::default(), cancel, move |stage, step, steps| {
            tell.send((stage.to_string(), step, steps)).unwrap();
            if stage.contains(", 9 of") {
                from_within.cancel();
            }
        })
        .unwrap();
    let asked = session.check(&bytes("samples/plain_rod.stl"), &job().as_str().into(), Stress::Cells(FEW));
    assert_eq!(asked, Err(HostError::Cancelled));
    drop(session);
    let told: Vec<(String, u32, u32)> = told.iter().collect();
    let first = "solving the stress field, 1 of ";
    assert!(told.iter().any(|(stage, ..)| stage.starts_with(first) && stage.contains(": small-end eye")), "{told:?}");
    assert!(told.iter().all(|(_, step, steps)| (1..=*steps).contains(step)), "{told:?}");
    assert!(!told.iter().any(|(stage, ..)| stage.contains("highest speed")), "{told:?}");
}

#[test]
fn is_refused_with_too_few_cells() {
    let (rod, text) = (bytes("samples/plain_rod.stl"), job());
    let told = |asked: Result<String, HostError>| match asked {
        Err(HostError::Refused { message, help, .. }) => {
            assert!(!help.is_empty());
            message
        }
        other => panic!("{other:?}"),
    };
    let mut session = session();
    assert!(told(session.check(&rod, &text.as_str().into(), Stress::Cells(3))).contains("3 cells"));
    // It can still be asked for the rest.
    session.check(&rod, &text.as_str().into(), Stress::Sections).unwrap();
}
