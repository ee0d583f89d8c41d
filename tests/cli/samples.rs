//! Every sample can be checked with the jobs that come with them.

use std::ffi::OsStr;
use std::{fs, io};

use super::Tested;
use super::run::{layload, top};

/// Files of the samples that end in `extension`.
fn samples(extension: &str) -> io::Result<Vec<String>> {
    let mut names = Vec::new();
    for entry in fs::read_dir(top().join("samples"))? {
        let path = entry?.path();
        if path.extension() == Some(OsStr::new(extension))
            && let Some(name) = path.file_name().and_then(OsStr::to_str)
        {
            names.push(format!("samples/{name}"));
        }
    }
    names.sort();
    Ok(names)
}

#[test]
fn with_the_job_beside_them() -> Tested {
    let (meshes, mut jobs) = (samples("stl")?, samples("toml")?);
    // A study names its own job.
    jobs.retain(|name| name != "samples/study.toml");
    assert!(meshes.len() >= 4 && !jobs.is_empty(), "{meshes:?} {jobs:?}");
    for mesh in &meshes {
        for job in &jobs {
            let said = layload(&["check", mesh, "--job", job])?;
            assert!(matches!(said.code, Some(0 | 1)), "{mesh} with {job}: {}", said.err);
            assert_eq!(said.err, "", "{mesh} with {job}");
        }
    }
    Ok(())
}
