//! The exit code says what the report says.

use serde_json::Value;

use super::Tested;
use super::run::{ROD, Said, layload};

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

#[test]
fn follows_the_verdict() -> Tested {
    let mut codes = Vec::new();
    for rpm in ["300", "190000"] {
        let json = engine(rpm, &["--json"])?;
        let report: Value = serde_json::from_str(&json.out)?;
        let holds = report["verdict"]["holds"].as_bool().ok_or("no verdict")?;
        assert_eq!(json.code, Some(i32::from(!holds)), "at {rpm} rpm");
        let text = engine(rpm, &[])?;
        assert_eq!(text.code, json.code, "at {rpm} rpm");
        let first = text.out.lines().next().unwrap_or_default();
        assert!(first.starts_with(if holds { "HOLDS" } else { "FAILS" }), "{first}");
        codes.push(json.code);
    }
    assert_eq!(codes, [Some(0), Some(1)]);
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
