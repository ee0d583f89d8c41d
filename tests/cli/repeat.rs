//! The same input gives the same bytes.

use super::Tested;
use super::run::{JOB, ROD, layload, program, run};

#[test]
fn run_after_run() -> Tested {
    for mesh in [ROD, "tests/meshes/overlapping_shells.stl", "samples/split_rod.stl"] {
        let arguments = ["check", "--quick", mesh, "--job", JOB, "--json"];
        let first = layload(&arguments)?;
        assert!(!first.out.is_empty());
        for _ in 0..2 {
            assert_eq!(layload(&arguments)?, first, "{mesh}");
        }
    }
    assert_eq!(layload(&["check", "--quick", ROD, "--job", JOB])?, layload(&["check", "--quick", ROD, "--job", JOB])?);
    Ok(())
}

#[test]
fn whatever_the_number_of_threads_and_the_place() -> Tested {
    let arguments = ["check", "--quick", "samples/bearing_rod.stl", "--job", JOB, "--json"];
    let first = layload(&arguments)?;
    for threads in ["1", "3", "8"] {
        assert_eq!(run(program().args(arguments).env("RAYON_NUM_THREADS", threads))?, first, "{threads} threads");
    }
    for (name, value) in [("LC_ALL", "de_DE.UTF-8"), ("TZ", "Asia/Tokyo"), ("COLUMNS", "40")] {
        assert_eq!(run(program().args(arguments).env(name, value))?, first, "{name}={value}");
    }
    Ok(())
}
