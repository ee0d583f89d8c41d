//! From a table of coupons to a card that a check takes.

use std::fs;

use serde_json::Value;

use super::Tested;
use super::run::{JOB, ROD, file, layload};

const COUPONS: &str = "samples/coupons.csv";

fn fresh(name: &str) -> Result<String, Box<dyn std::error::Error>> {
    let path = file(name, b"")?;
    fs::remove_file(&path)?;
    Ok(path)
}

#[test]
fn the_card_is_written_and_used() -> Tested {
    let card = fresh("fitted_card.toml")?;
    let said = layload(&["fit", COUPONS, "--out", &card, "--name", "my spool"])?;
    assert_eq!((said.code, said.err.as_str()), (Some(0), ""));
    for line in said.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    let text = fs::read_to_string(&card)?;
    assert!(text.contains("source = \"coupon\"") && text.contains("2026-05-11") && text.contains("6 tests"), "{text}");
    let check = layload(&["check", "--quick", ROD, "--job", JOB, "--card", &card, "--json"])?;
    let report: Value = serde_json::from_str(&check.out)?;
    let entries = report["assumptions"].as_array().ok_or("no assumptions")?;
    assert!(entries.iter().any(|e| e["name"] == "material" && e["value"] == "my spool"));
    assert!(entries.iter().any(|e| e["name"] == "strength along beads" && e["source"] == "coupon"));
    // What is there is not replaced unasked.
    assert_eq!(layload(&["fit", COUPONS, "--out", &card])?.code, Some(2));
    assert_eq!(layload(&["fit", COUPONS, "--out", &card, "--overwrite"])?.code, Some(0));
    // Nor is the card that it starts from, not even when asked: the next one has another name.
    let before = fs::read(&card)?;
    let said = layload(&["fit", COUPONS, "--out", &card, "--base", &card, "--overwrite"])?;
    assert_eq!((said.code, fs::read(&card)?), (Some(2), before));
    let next = fresh("fitted_next.toml")?;
    assert_eq!(layload(&["fit", COUPONS, "--out", &next, "--base", &card])?.code, Some(0));
    Ok(())
}

#[test]
fn names_that_scripts_rely_on_and_the_drawings() -> Tested {
    let (card, svg) = (fresh("fitted_json.toml")?, fresh("fitted_lines.svg")?);
    let second = svg.replace(".svg", "-2.svg");
    let _ = fs::remove_file(&second);
    let _ = fs::remove_file(svg.replace(".svg", "-3.svg"));
    let said = layload(&["fit", COUPONS, "--out", &card, "--json", "--svg", &svg])?;
    let report: Value = serde_json::from_str(&said.out)?;
    let schema: Value = serde_json::from_str(&layload(&["schema", "fit"])?.out)?;
    assert!(jsonschema::validator_for(&schema)?.is_valid(&report));
    for value in report["fitted"].as_array().ok_or("nothing fitted")? {
        assert!(value["low"].as_f64() <= value["value"].as_f64() && value["value"].as_f64() <= value["high"].as_f64());
    }
    assert!(fs::read_to_string(&svg)?.contains("50 % fail") && fs::read_to_string(&second)?.contains("</svg>"));
    Ok(())
}

#[test]
fn slips_are_named() -> Tested {
    let out = fresh("never_written.toml")?;
    for (name, text, told) in [
        ("coupons_column.csv", "test,strain_rate\ntensile,3\n", "strain_rate"),
        ("coupons_row.csv", "test,direction,strength_mpa\ntensile,bead,-3\n", "row 1"),
        ("coupons_word.csv", "test,direction,strength_mpa\ntensile,bead,fifty\n", "line: 2"),
        ("coupons_empty.csv", "test,direction\n", "no tests"),
    ] {
        let said = layload(&["fit", &file(name, text)?, "--out", &out])?;
        assert_eq!((said.code, said.out.as_str()), (Some(2), ""), "{name}");
        assert!(said.complains(told), "{name}: {}", said.err);
    }
    assert!(fs::metadata(&out).is_err());
    Ok(())
}
