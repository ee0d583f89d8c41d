//! Every sample rod can be checked with the job that comes with it.

use std::fs;

use super::Tested;
use super::run::{layload, top};

#[test]
fn with_the_job_beside_them() -> Tested {
    let mut count = 0;
    let mut jobs = Vec::new();
    for entry in fs::read_dir(top().join("samples"))? {
        let name = entry?.file_name().into_string().map_err(|_| "a name that is no text")?;
        if name.ends_with(".toml") && !name.starts_with("pyproject") {
            jobs.push(format!("samples/{name}"));
        }
    }
    for entry in fs::read_dir(top().join("samples"))? {
        let name = entry?.file_name().into_string().map_err(|_| "a name that is no text")?;
        if !name.ends_with(".stl") {
            continue;
        }
        count += 1;
        for job in &jobs {
            let said = layload(&["check", &format!("samples/{name}"), "--job", job])?;
            assert!(matches!(said.code, Some(0 | 1)), "{name} with {job}: {}", said.err);
            assert_eq!(said.err, "", "{name} with {job}");
        }
    }
    assert!(count >= 4 && !jobs.is_empty(), "{count} meshes and {} jobs", jobs.len());
    Ok(())
}
