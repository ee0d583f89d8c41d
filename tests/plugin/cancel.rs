//! A host gets control back when it wants it.

use std::sync::mpsc;
use std::thread;
use std::time::{Duration, Instant};

use layload_host::{Cancel, HostError, Limits, Stress};

use super::setting::{job, plugin, slow_mesh, small_rod};

#[test]
fn from_another_thread_in_the_middle_of_a_stage() {
    let cancel = Cancel::new();
    let (begun, has_begun) = mpsc::channel();
    let mut session = plugin()
        .open(Limits::default(), cancel.clone(), move |_, _, _| {
            let _ = begun.send(());
        })
        .unwrap();
    let stl = slow_mesh(400);
    let asked = thread::spawn(move || {
        let answer = session.check(&stl, &job().as_str().into(), Stress::Sections);
        (answer, Instant::now())
    });
    has_begun.recv().unwrap();
    // Well into reading 1.2 million facets, long before it could end.
    thread::sleep(Duration::from_millis(30));
    let cancelled = Instant::now();
    cancel.cancel();
    let (answer, back) = asked.join().unwrap();
    assert_eq!(answer, Err(HostError::Cancelled));
    // The promise to hosts is 100 ms on an idle machine; ten times that tells a stop from a question that ran to its end.
    let took = back.saturating_duration_since(cancelled);
    println!("control was back after {took:?}");
    assert!(took < Duration::from_secs(1), "{took:?}");
}

#[test]
fn before_the_question() {
    let cancel = Cancel::new();
    let mut session = plugin().open(Limits::default(), cancel.clone(), |_, _, _| {}).unwrap();
    cancel.cancel();
    assert_eq!(session.check(&small_rod(), &job().as_str().into(), Stress::Sections), Err(HostError::Cancelled));
}

#[test]
fn progress_tells_stages_in_order() {
    let (tell, told) = mpsc::channel();
    let mut session = plugin()
        .open(Limits::default(), Cancel::new(), move |stage, step, steps| {
            tell.send((stage.to_string(), step, steps)).unwrap();
        })
        .unwrap();
    session.check(&small_rod(), &job().as_str().into(), Stress::Sections).unwrap();
    drop(session);
    let told: Vec<_> = told.iter().collect();
    assert!(told.len() >= 4, "{told:?}");
    assert_eq!(told[0].0, "reading the mesh");
    assert!(told.iter().all(|(_, step, steps)| (1..=*steps).contains(step)), "{told:?}");
}
