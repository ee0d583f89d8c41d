//! Numbers that are sound alone and do not go together.

use super::Tested;
use super::refusal::refused;
use super::run::{ROD, changed_job, file, layload, report, top};

#[test]
fn impossible_ones_are_refused() -> Tested {
    // Tests' rod: small-end bore of some ten millimetres, cylinder bore of 52 mm, 96 g.
    let grams = changed_job("together_mass.toml", "reciprocating_mass_g = 96.0", "reciprocating_mass_g = 0.096")?;
    let said = layload(&["check", "--quick", ROD, "--job", &grams])?;
    refused("kilograms", &said, &["a reciprocating mass of 0.096 g does not go with a cylinder bore of 52 mm"]);
    assert!(said.err.contains("engine.reciprocating_mass_g") && said.err.contains("usual"), "{}", said.err);
    let bore = changed_job("together_bore.toml", "bore_mm = 52.0", "bore_mm = 5.2")?;
    let said = layload(&["check", "--quick", ROD, "--job", &bore])?;
    refused("centimetres", &said, &["a cylinder bore of 5.2 mm does not go with a small-end bore of"]);
    let text = std::fs::read_to_string(top().join("samples/bench_piston.toml"))?;
    let job = file("together_piston.toml", text.replace("bore_mm = 34.0", "bore_mm = 340.0"))?;
    let said = layload(&["check", "--quick", "tests/meshes/piston.stl", "--job", &job])?;
    refused("piston", &said, &["a cylinder bore of 340 mm does not go with a piston skirt of 33.7 mm"]);
    Ok(())
}

#[test]
fn doubtful_ones_are_told() -> Tested {
    let warnings = |options: &[&str]| -> Result<String, Box<dyn std::error::Error>> {
        Ok(report(ROD, options)?["warnings"].to_string())
    };
    // Nothing is there to warn of.
    assert_eq!(warnings(&[])?, "null");
    let light = warnings(&["--reciprocating-mass-g", "9.6"])?;
    assert!(light.contains("a reciprocating mass of 9.6 g with a cylinder bore of 52 mm is unusual"), "{light}");
    let fast = warnings(&["--rpm", "40000"])?;
    assert!(fast.contains("a highest speed of 40000 rpm with a stroke of 46 mm is unusual"), "{fast}");
    Ok(())
}
