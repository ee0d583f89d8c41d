//! What is wrong reaches a host as a code and a key, not only as a sentence.

use layload_host::{HostError, Stress};

use super::setting::{job, session, small_rod};

/// Code and key of what is refused.
fn refused(stl: &[u8], job: &str) -> (String, Option<String>) {
    match session().check(stl, &job.into(), Stress::Sections) {
        Err(HostError::Refused { code, key, message, help }) => {
            assert!(!message.is_empty() && !help.is_empty(), "{code}");
            (code, key)
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_refused_job_names_the_entry_that_is_wrong() {
    let good = job();
    let with = |from: &str, to: &str| {
        assert!(good.contains(from), "{from}");
        good.replacen(from, to, 1)
    };
    let line = |name: &str| good.lines().find(|line| line.starts_with(name)).expect(name).to_owned();
    for (bad, code, key) in [
        (with(&line("stroke_mm"), ""), "job-missing", Some("engine.stroke_mm")),
        (with(&line("stroke_mm"), "stroke_mm = -4"), "job-out-of-range", Some("engine.stroke_mm")),
        (with(&line("name"), "name = \"OAK\""), "material-unknown", Some("material.name")),
        (with("[engine]", "[enigne]"), "job-format", None),
    ] {
        assert_eq!(refused(&small_rod(), &bad), (code.into(), key.map(String::from)), "{bad}");
    }
}

#[test]
fn a_refused_mesh_has_a_code_and_no_key() {
    let rod = small_rod();
    assert_eq!(refused(&rod[..rod.len() / 2], &job()), ("mesh-truncated".into(), None));
    assert_eq!(refused(b"", &job()), ("mesh-empty".into(), None));
}
