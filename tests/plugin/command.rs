//! `layload host` as a user or a script meets it.

use std::process::{Command, Output};

use super::setting::{folder, top};

const PLUGIN: &str = "target/plugin/layload.wasm";
const ROD: &str = "samples/plain_rod.stl";
const JOB: [&str; 2] = ["--job", "samples/bench_single.toml"];

fn layload(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_layload"))
        .current_dir(top())
        .env("XDG_CACHE_HOME", folder("cache-of-commands"))
        .env_remove("NO_COLOR")
        .args(arguments)
        .output()
        .unwrap()
}

fn said(arguments: &[&str]) -> (Option<i32>, String) {
    let output = layload(arguments);
    assert_eq!(String::from_utf8_lossy(&output.stderr), "", "{arguments:?}");
    (output.status.code(), String::from_utf8(output.stdout).unwrap())
}

#[test]
fn says_what_the_command_without_a_plugin_says() {
    let least = ["--least-mm", "4.5"];
    let few = ["--count", "100"];
    let speeds = ["--from", "1500", "--to", "12000", "--count", "9"];
    let questions: [(&str, &[&str]); 6] = [
        ("sweep", &speeds),
        ("check", &[]),
        ("check", &["--rpm", "6500", "--build-direction", "upright", "--material", "PA6-CF20"]),
        ("directions", &few),
        ("walls", &[]),
        ("walls", &least),
    ];
    for (question, more) in questions {
        for form in [&["--json"][..], &[]] {
            // Bytes are looked at and not stress.
            let quick: &[&str] = if question == "walls" { &[] } else { &["--quick"] };
            let asked = [&[question, ROD], &JOB[..], more, quick, form].concat();
            let native = said(&asked);
            let hosted = said(&[&["host", PLUGIN], &asked[..]].concat());
            assert_eq!(native.0, hosted.0, "{asked:?}");
            if form.is_empty() {
                // The words are written from numbers that went through text once more.
                assert_eq!(native.1, hosted.1, "{asked:?}");
            } else {
                assert!(native.1 == hosted.1, "{asked:?}");
            }
        }
    }
}

/// Few cells, as bytes are looked at and not stress.
#[test]
fn says_of_the_stress_field_what_the_command_without_a_plugin_says() {
    let few = ["--cells", "500", "--json"];
    let speeds = ["--from", "4000", "--to", "6000", "--count", "3"];
    for (question, more) in [("check", &[][..]), ("sweep", &speeds), ("directions", &["--count", "40"])] {
        let asked = [&[question, ROD], &JOB[..], more, &few].concat();
        assert!(said(&asked) == said(&[&["host", PLUGIN], &asked[..]].concat()), "{question}");
    }
    // So few cells are none.
    let output = layload(&[&["host", PLUGIN, "check", ROD], &JOB[..], &["--cells", "3"]].concat());
    let told = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.code() == Some(2) && told.contains("3 cells") && told.contains("help:"), "{told}");
}

#[test]
fn limits_are_options_and_end_with_a_word_of_help() {
    for (limit, wanted) in [
        (["--memory-mib", "16"], ["more than 16 MiB", "--memory-mib"]),
        (["--deadline-ms", "1"], ["more than 1 ms", "--deadline-ms"]),
    ] {
        let output = layload(&[&["host", PLUGIN, "check", "samples/split_rod.stl"], &JOB[..], &limit[..]].concat());
        let told = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{told}");
        assert!(wanted.iter().all(|word| told.contains(word)), "{told}");
        assert!(output.stdout.is_empty());
    }
}

#[test]
fn refusals_are_those_of_the_core() {
    let asked = ["check", "tests/meshes/open.stl", "--job", "samples/bench_single.toml"];
    let native = layload(&asked);
    let hosted = layload(&[&["host", PLUGIN], &asked[..]].concat());
    assert_eq!(hosted.status.code(), Some(2));
    assert_eq!(String::from_utf8_lossy(&native.stderr), String::from_utf8_lossy(&hosted.stderr));
}

#[test]
fn a_mesh_is_no_plugin() {
    let output = layload(&[&["host", ROD, "check", ROD], &JOB[..]].concat());
    assert_eq!(output.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&output.stderr).contains("not a WebAssembly component"));
}
