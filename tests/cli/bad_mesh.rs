//! Bad meshes: each ends with exit code 2 and a plain sentence.

use std::fs;

use super::Tested;
use super::refusal::refused;
use super::run::{JOB, ROD, file, layload, top};

/// Checks a mesh of `tests/meshes`.
fn check(mesh: &str, wanted: &[&str]) -> Tested {
    let path = format!("tests/meshes/{mesh}.stl");
    refused(mesh, &layload(&["check", &path, "--job", JOB])?, wanted);
    refused(mesh, &layload(&["check", &path, "--job", JOB, "--json"])?, wanted);
    Ok(())
}

/// Checks bytes under a name of the test's own.
fn check_bytes(name: &str, bytes: impl AsRef<[u8]>, wanted: &[&str]) -> Tested {
    let path = file(&format!("bad_mesh_{name}.stl"), bytes)?;
    refused(name, &layload(&["check", &path, "--job", JOB])?, wanted);
    Ok(())
}

#[test]
fn missing_file_and_folder() -> Tested {
    refused("missing", &layload(&["check", "no_such.stl", "--job", JOB])?, &["no_such.stl cannot be read"]);
    refused("folder", &layload(&["check", "tests", "--job", JOB])?, &["tests cannot be read"]);
    Ok(())
}

#[test]
fn empty() -> Tested {
    check_bytes("empty", "", &["the mesh is empty"])?;
    check_bytes("blank", " \n\n", &["the mesh is empty"])?;
    check_bytes("no_facets", [0_u8; 84], &["the mesh is empty"])?;
    check_bytes("no_facets_text", "solid\nendsolid\n", &["the mesh is empty"])
}

#[test]
fn truncated() -> Tested {
    let whole = fs::read(top().join("tests/meshes/pin.stl"))?;
    check_bytes("truncated", &whole[..whole.len() / 2], &["announces 1560 facets", " 779:"])?;
    let text = fs::read(top().join("tests/meshes/ascii_odd_spacing.stl"))?;
    check_bytes("truncated_text", &text[..text.len() / 2], &["line ", "of the ASCII STL"])
}

#[test]
fn numbers_that_are_none() -> Tested {
    let text = "solid\nfacet normal 0 0 1\nouter loop\nvertex 0 0 nan\nvertex 1 0 0\nvertex 0 1 0\nendloop\nendfacet\nendsolid\n";
    check_bytes("nan_text", text, &["line 4", "three finite numbers"])?;
    let mut bytes = fs::read(top().join(ROD))?;
    bytes[84 + 50 * 3 + 12..][..4].copy_from_slice(&f32::NAN.to_le_bytes());
    check_bytes("nan_binary", bytes, &["facet 3", "not a usable number"])
}

#[test]
fn other_files() -> Tested {
    check_bytes("random", (0_u32..5000).map(|k| (k.wrapping_mul(2_654_435_761) >> 13) as u8).collect::<Vec<_>>(), &[])?;
    refused("a job as the mesh", &layload(&["check", JOB, "--job", JOB])?, &["not an STL"]);
    Ok(())
}

#[test]
fn surfaces_of_no_solid() -> Tested {
    check("open", &["the surface is open", "near x "])?;
    check("fin", &["near x "])?;
    check("non_manifold", &["not a solid", "near x "])?;
    check("inside_out", &["inside out"])
}

#[test]
fn other_parts() -> Tested {
    for name in ["pin", "tube", "crank_arm", "block", "block_two_holes", "flange_plate", "one_bore"] {
        check(name, &["no connecting rod was recognised", "--small-end", "--big-end"])?;
    }
    check("one_bore", &["only one bore"])?;
    check("two_rods", &["2 connecting rods"])
}

#[test]
fn every_bad_mesh_ends_in_a_sentence() -> Tested {
    // What is read is a cube or a ball, no rod: each is refused, as a mesh or as a part.
    let mut count = 0;
    for entry in fs::read_dir(top().join("tests/meshes/bad"))? {
        let file = entry?.path();
        if file.extension().is_some_and(|extension| extension == "stl") {
            let name = file.file_name().unwrap_or_default().to_string_lossy();
            let path = format!("tests/meshes/bad/{name}");
            refused(&path, &layload(&["check", &path, "--job", JOB])?, &[]);
            count += 1;
        }
    }
    assert!(count >= 80, "{count} files");
    Ok(())
}
