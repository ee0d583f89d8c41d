//! Odd, damaged and hostile files: each ends as `tests/meshes/bad/expected.json` says.

use layload_core::mesh::{Mesh, MeshError, bodies};
use layload_core::{Help, LengthUnit};
use serde_json::Value;

use super::{Tested, files};

/// What became of a file: its outcome, and the note or the name of the error.
fn outcome(bytes: &[u8]) -> (&'static str, String) {
    let (mesh, mended) = match Mesh::from_stl(bytes, LengthUnit::Millimetre) {
        Ok(read) => read,
        Err(error) => return ("refused", name(&error)),
    };
    let bodies = match bodies(mesh) {
        Ok(bodies) => bodies,
        Err(error) => return ("refused", name(&error)),
    };
    let repairs = [
        (mended.degenerate_dropped > 0, "degenerate"),
        (mended.corners_rounded, "rounded"),
        (mended.facets_turned > 0, "turned"),
        (mended.holes_capped > 0, "capped"),
    ];
    let oddities = [
        (bodies.iter().any(|body| body.voids > 0), "void"),
        (bodies.iter().any(|body| body.outer_shells > 1), "overlap"),
        (bodies.len() > 1, "several bodies"),
    ];
    let said = |list: &[(bool, &'static str)]| list.iter().find(|(is, _)| *is).map(|(_, word)| (*word).to_string());
    match (said(&repairs), said(&oddities)) {
        (Some(repair), _) => ("mended with note", repair),
        (None, Some(oddity)) => ("accepted with note", oddity),
        (None, None) => ("accepted", String::new()),
    }
}

/// Name of an error's kind; what it says must be a sentence, with help.
fn name(error: &MeshError) -> String {
    let helped = match error.help() {
        Help::Words(words) => words.len() > 15,
        other => matches!(other, Help::InPlaceOfMesh(_)),
    };
    assert!(error.to_string().len() > 15 && helped, "{error:?}");
    format!("{error:?}").split(|c: char| !c.is_alphanumeric()).next().unwrap_or_default().into()
}

#[test]
fn every_file_ends_as_expected() -> Tested {
    let expected: Value = serde_json::from_slice(&files::bytes("tests/meshes/bad/expected.json")?)?;
    let expected = expected.as_object().ok_or("no files")?;
    let mut faults = Vec::new();
    for (name, row) in expected {
        let (outcome, said) = outcome(&files::bytes(&format!("tests/meshes/bad/{name}.stl"))?);
        let wanted = row["note"].as_str().or(row["error"].as_str()).unwrap_or_default();
        if row["outcome"] != outcome || wanted != said {
            faults.push(format!("{name}: {outcome} {said}, expected {} {wanted}", row["outcome"]));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(expected.len() >= 80, "only {} files", expected.len());
    Ok(())
}
