//! A session can be asked as often as a host likes.

use layload_host::{Stress, checker};

use super::setting::{job, session, small_rod};

#[test]
fn a_thousand_questions_take_no_more_memory_than_a_few() {
    // Without an engine walls are measured and no more, so that a thousand take seconds.
    let (stl, text) = (small_rod(), "[print]\nwalls = 4\n");
    let mut session = session();
    // Each reads the part, and every fiftieth is answered in full: an answer takes far longer and leaks no otherwise.
    let mut ask = |count: usize| {
        for number in 0..count {
            if number % 50 == 0 {
                session.walls(&stl, &text.into(), None).unwrap();
            } else {
                session.check(&stl, &text.into(), Stress::Sections).unwrap_err();
            }
        }
        session.memory_bytes()
    };
    let few = ask(20);
    let many = ask(980);
    assert_eq!(few, many);
}

#[test]
fn refused_questions_leave_nothing_behind() {
    let text = job();
    let mut session = session();
    let no_mesh = vec![7; 20_000];
    let mut ask = |count: usize| {
        for _ in 0..count {
            session.check(&no_mesh, &text.as_str().into(), Stress::Sections).unwrap_err();
            session.check(&[], &"this is no job".into(), Stress::Sections).unwrap_err();
        }
        session.memory_bytes()
    };
    let few = ask(5);
    assert_eq!(few, ask(500));
}

#[test]
fn typed_answers_agree_with_the_report() {
    let (stl, text) = (small_rod(), job());
    let mut session = session();
    let json: serde_json::Value =
        serde_json::from_str(&session.check(&stl, &text.as_str().into(), Stress::Sections).unwrap()).unwrap();
    let verdict: checker::Verdict = session.verdict(&stl, &text.as_str().into(), Stress::Sections).unwrap();
    assert_eq!(json["verdict"]["margin"].as_f64(), Some(verdict.margin));
    // The record has no third answer: what is no answer does not hold.
    assert_eq!(json["verdict"]["holds"] == true, verdict.holds);
    assert_eq!(json["verdict"]["governing_mode"].as_str(), Some(verdict.governing_mode.as_str()));
}
