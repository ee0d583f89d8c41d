//! The exit code says what the report says: one list of states, in every form.

use serde_json::Value;

use super::Tested;
use super::run::{ROD, Said, layload};

/// So few cells that a test is quick; states are looked at, not stress.
const FEW: [&str; 2] = ["--cells", "4000"];

/// An engine so small that its load is hardly felt, and the same at a speed no plastic bears.
fn engine(rpm: &str, more: &[&str]) -> std::io::Result<Said> {
    let numbers = [
        "check",
        ROD,
        "--stroke-mm",
        "20",
        "--bore-mm",
        "14",
        "--reciprocating-mass-g",
        "1",
        "--material",
        "PEEK",
        "--temperature-c",
        "23",
        "--wanted-life-h",
        "0.1",
        "--rpm",
        rpm,
    ];
    layload(&[&numbers, more].concat())
}

/// What belongs to a state: the exit code, `holds`, and how the text begins.
fn meaning(state: &str) -> Option<(i32, Option<bool>, &'static str)> {
    match state {
        "holds" => Some((0, Some(true), "HOLDS: at ")),
        "holds-unproven" => Some((0, Some(true), "HOLDS, unproven: at ")),
        "holds-unchecked" => Some((0, Some(true), "HOLDS, not all checked: at ")),
        "fails" => Some((1, Some(false), "FAILS: at ")),
        "no-fault-found" => Some((3, None, "NO FAULT FOUND: by sections ")),
        _ => None,
    }
}

#[test]
fn follows_the_state_in_every_form() -> Tested {
    let mut seen = Vec::new();
    for rpm in ["300", "190000"] {
        for how in [&FEW[..], &["--quick"]] {
            let json = engine(rpm, &[how, &["--json"]].concat())?;
            let report: Value = serde_json::from_str(&json.out).map_err(|error| format!("{error}: {}", json.err))?;
            let verdict = &report["verdict"];
            let state = verdict["state"].as_str().ok_or("no state")?.to_string();
            let (code, holds, word) = meaning(&state).ok_or_else(|| format!("no such state: {state}"))?;
            assert_eq!((json.code, verdict["holds"].as_bool()), (Some(code), holds), "{state} at {rpm} rpm");
            let text = engine(rpm, how)?;
            assert_eq!(text.code, json.code, "{state} at {rpm} rpm");
            assert!(text.out.starts_with(word), "{state}: {}", text.out.lines().next().unwrap_or_default());
            // What the state rests on is in the report too.
            let all_checked = verdict["unchecked"].as_array().is_some_and(Vec::is_empty);
            match state.as_str() {
                "holds" => assert!(all_checked && verdict["well_founded"] == true),
                "holds-unproven" => assert!(all_checked && verdict["well_founded"] == false),
                "holds-unchecked" => assert!(!all_checked),
                _ => {}
            }
            assert_eq!(report["field"].is_null(), how == ["--quick"], "{how:?}");
            seen.push(code);
        }
    }
    assert_eq!(seen, [0, 3, 1, 1]);
    Ok(())
}

/// Sections alone never say that a part holds, in no form, of whatever sample.
#[test]
fn a_quick_look_never_says_that_it_holds() -> Tested {
    let rods = ["plain_rod", "i_shank_rod", "thin_web_rod", "bearing_rod", "split_rod"];
    let rods = rods.map(|rod| (rod, "samples/bench_single.toml"));
    let pistons = ["flat_crown_piston", "thin_crown_piston", "plate_crown_piston"];
    let pistons = pistons.map(|piston| (piston, "samples/bench_piston.toml"));
    let mut found = Vec::new();
    for (part, job) in rods.iter().chain(&pistons) {
        let mesh = format!("samples/{part}.stl");
        for rpm in ["1000", "5000", "20000"] {
            let said = layload(&["check", "--quick", &mesh, "--job", job, "--rpm", rpm])?;
            assert!(!said.out.contains("HOLDS"), "{part} at {rpm} rpm:\n{}", said.out);
            assert!(matches!(said.code, Some(1 | 3)), "{part} at {rpm} rpm: {}", said.err);
            found.push(said.code);
        }
        let json = layload(&["check", "--quick", &mesh, "--job", job, "--json"])?;
        let verdict: Value = serde_json::from_str::<Value>(&json.out)?["verdict"].take();
        assert_ne!(verdict["holds"], true, "{part}");
    }
    // Both of them were seen.
    assert!(found.contains(&Some(1)) && found.contains(&Some(3)), "{found:?}");
    Ok(())
}

/// One answer: a check, a sweep at the job's own speed, both sides of a comparison and a direction give one margin by the
/// stress field, to the last digit.
#[test]
fn every_question_has_the_margin_of_the_check() -> Tested {
    for (mesh, job) in [
        ("samples/plain_rod.stl", "samples/bench_single.toml"),
        ("tests/meshes/piston.stl", "samples/bench_piston.toml"),
    ] {
        let asked = |arguments: &[&str]| -> Result<(Value, Option<i32>), Box<dyn std::error::Error>> {
            let said = layload(&[arguments, &["--job", job, "--rpm", "5000", "--json"], &FEW].concat())?;
            Ok((serde_json::from_str(&said.out).map_err(|error| format!("{error}: {}", said.err))?, said.code))
        };
        let (check, code) = asked(&["check", mesh])?;
        let verdict = &check["verdict"];
        let (swept, _) = asked(&["sweep", mesh, "--from", "4000", "--to", "6000", "--count", "3"])?;
        let point = &swept["sweep"][1];
        assert_eq!(swept["solved"], true);
        assert_eq!((&point["margin"], &point["life_b10_s"]), (&verdict["margin"], &check["life"]["b10_s"]), "{mesh}");
        assert_eq!(
            (&point["governing_mode"], &point["governing_place"]),
            (&verdict["governing_mode"], &verdict["governing_place"])
        );
        // Faster and slower it goes on from there: no jump between the field and what is raised to it.
        if mesh.contains("rod") {
            let margin = |k: usize| swept["sweep"][k]["margin"].as_f64().unwrap_or(f64::NAN);
            assert!(margin(0) > margin(1) && margin(1) > margin(2), "{swept}");
        }
        let (same, same_code) = asked(&["compare", mesh, mesh])?;
        let stress = same["changes"].as_array().and_then(|all| all.iter().find(|c| c["name"] == "margin on stress"));
        let stress = stress.ok_or("no margin")?;
        assert_eq!((&stress["old"], &stress["new"]), (&verdict["margin"], &verdict["margin"]), "{mesh}");
        assert_eq!((same_code, &same["new"]["state"]), (code, &verdict["state"]), "{mesh}");
    }
    Ok(())
}

#[test]
fn good_for_what_needs_no_verdict() -> Tested {
    for arguments in [&["schema"][..], &["materials"], &["materials", "PA12"]] {
        let said = layload(arguments)?;
        assert_eq!((said.code, said.err.as_str()), (Some(0), ""), "{arguments:?}");
        assert!(!said.out.is_empty());
    }
    Ok(())
}
