//! Memory and time are limited, and the next session is not harmed.

use std::time::Duration;

use layload_host::{Cancel, HostError, Limits, Stress};

use super::setting::{job, plugin, session, slow_mesh, small_rod};

#[test]
fn a_slow_mesh_is_stopped_by_the_deadline() {
    let limits = Limits { deadline: Duration::from_millis(60), ..Limits::default() };
    let mut stopped = plugin().open(limits, Cancel::new(), |_, _, _| {}).unwrap();
    let error = stopped.check(&slow_mesh(60), &job().as_str().into(), Stress::Sections).unwrap_err();
    assert_eq!(error, HostError::Deadline { limit_ms: 60 });
    assert!(!error.help().is_empty());
    session().check(&small_rod(), &job().as_str().into(), Stress::Sections).unwrap();
}

#[test]
fn a_mesh_that_needs_more_memory_than_there_is_ends_plainly() {
    let limits = Limits { memory_mib: 24, ..Limits::default() };
    let mut stopped = plugin().open(limits, Cancel::new(), |_, _, _| {}).unwrap();
    let error = stopped.check(&slow_mesh(200), &job().as_str().into(), Stress::Sections).unwrap_err();
    assert_eq!(error, HostError::Memory { limit_mib: 24 });
    session().check(&small_rod(), &job().as_str().into(), Stress::Sections).unwrap();
}

#[test]
fn a_session_that_gets_no_memory_does_not_start() {
    let limits = Limits { memory_mib: 0, ..Limits::default() };
    let error = plugin().open(limits, Cancel::new(), |_, _, _| {}).err();
    assert_eq!(error, Some(HostError::Memory { limit_mib: 0 }));
}

#[test]
fn each_question_has_the_whole_time() {
    // Two questions that both fit, in a session older than the deadline.
    let limits = Limits { deadline: Duration::from_secs(20), ..Limits::default() };
    let mut session = plugin().open(limits, Cancel::new(), |_, _, _| {}).unwrap();
    session.check(&small_rod(), &job().as_str().into(), Stress::Sections).unwrap();
    session.check(&small_rod(), &job().as_str().into(), Stress::Sections).unwrap();
}
