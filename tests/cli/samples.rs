//! Every sample can be checked with the jobs that come with them.

use std::ffi::OsStr;
use std::{fs, io};

use super::Tested;
use super::run::{layload, top};

/// Jobs with rings, the one rod they go into, and what is told of others.
const RINGS: [(&str, &str, &str); 2] = [
    ("samples/bench_bearings.toml", "samples/bearing_rod.stl", "a ring with an outside of 26 mm does not go with"),
    ("samples/bench_bushed.toml", "samples/bushed_rod.stl", "a ring with an outside of 14 mm does not go with"),
];

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
            let said = layload(&["check", "--quick", mesh, "--job", job])?;
            // Rings of a job go into the one rod with bores for them.
            let rings = RINGS.iter().find(|(of, ..)| job == of && mesh.contains("_rod"));
            if let Some((_, _, told)) = rings.filter(|(_, only, _)| mesh != only) {
                assert_eq!(said.code, Some(2), "{mesh} with {job}");
                assert!(said.complains(told), "{mesh}: {}", said.err);
                continue;
            }
            assert!(matches!(said.code, Some(1 | 3)), "{mesh} with {job}: {}", said.err);
            assert_eq!(said.err, "", "{mesh} with {job}");
        }
    }
    Ok(())
}

/// The split sample has no wall below 3.5 mm: cuts that graze the rounded edge of its bolt bosses are none.
#[test]
fn grazed_edges_are_no_thin_walls() -> Tested {
    let said = layload(&["check", "--quick", "samples/split_rod.stl", "--job", "samples/bench_split.toml", "--json"])?;
    let report: serde_json::Value = serde_json::from_str(&said.out)?;
    assert_eq!(report["rod"]["thin_sections"].as_array().map(Vec::len), Some(0), "{}", report["rod"]["thin_sections"]);
    let caps = report["rod"]["caps"].as_array().ok_or("no caps")?;
    assert_eq!(caps.len(), 1);
    assert!(caps[0]["fading"].as_array().is_some_and(|rows| rows.len() == 6), "{}", caps[0]);
    // A web of 1.2 mm stays one with beads of 0.8 mm.
    let thin = layload(&[
        "check",
        "samples/thin_web_rod.stl",
        "--job",
        "samples/bench_single.toml",
        "--bead-width-mm",
        "0.8",
        "--json",
    ])?;
    let report: serde_json::Value = serde_json::from_str(&thin.out)?;
    assert!(report["rod"]["thin_sections"].as_array().is_some_and(|list| !list.is_empty()), "{}", thin.err);
    Ok(())
}
