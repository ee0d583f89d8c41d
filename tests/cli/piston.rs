//! A piston through the program: recognised by itself, answered in text and JSON.

use serde_json::Value;

use super::Tested;
use super::run::{Said, changed_job, file, layload, top};

const FLAT: &str = "samples/flat_crown_piston.stl";
const THIN: &str = "samples/thin_crown_piston.stl";
const COARSE: &str = "tests/meshes/piston.stl";
const BENCH: &str = "samples/bench_piston.toml";

fn asked(mesh: &str, options: &[&str]) -> Result<(Said, Value), Box<dyn std::error::Error>> {
    let said = layload(&[&["check", "--quick", mesh, "--job", BENCH, "--json"], options].concat())?;
    let report = serde_json::from_str(&said.out).map_err(|error| format!("{error}: {}", said.err))?;
    Ok((said, report))
}

#[test]
fn names_that_scripts_may_rely_on() -> Tested {
    let (said, report) = asked(FLAT, &[])?;
    assert_eq!((said.code, said.err.as_str()), (Some(3), ""));
    assert_eq!(report["part"]["kind"], "piston");
    assert!(report["piston"]["crown_heat"]["surface_c"].is_number());
    // It holds: nothing softens.
    assert!(report["piston"]["crown_heat"].get("softening_time_s").is_none());
    let piston = &report["piston"];
    assert!((piston["skirt_diameter_mm"].as_f64().ok_or("none")? - 33.7).abs() < 0.1);
    assert!((piston["crown"]["thickness_mm"].as_f64().ok_or("none")? - 5.0).abs() < 0.05);
    assert_eq!(piston["grooves"].as_array().map(Vec::len), Some(2));
    assert_eq!(piston["bosses"].as_array().map(Vec::len), Some(2));
    assert!(piston["crown_heat"]["table"].as_array().is_some_and(|rows| rows.len() > 10));
    assert!(report["life"]["b10_s"].is_number() && report["modes"].as_array().is_some_and(|m| m.len() > 10));
    let (_, lost) = asked(FLAT, &["--material", "PLA"])?;
    assert!(lost["piston"]["crown_heat"]["softening_time_s"].is_number(), "{}", lost["heat"]);
    assert_eq!(lost["verdict"]["holds"], false);
    let text = layload(&["check", "--quick", FLAT, "--job", BENCH, "--material", "PLA"])?.out;
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("the crown is lost after") && text.contains("Until then the crown's face reaches"), "{text}");
    Ok(())
}

#[test]
fn what_the_text_says() -> Tested {
    let said = layload(&["check", "--quick", FLAT, "--job", BENCH, "--all"])?;
    assert_eq!(said.code, Some(3));
    for words in ["90 % of pistons", "The crown in one run from cold", "land 2", "Growth in the cylinder", "shield"] {
        assert!(said.out.contains(words), "no `{words}` in\n{}", said.out);
    }
    let thin = layload(&["check", "--quick", THIN, "--job", BENCH])?;
    assert_eq!(thin.code, Some(1));
    assert!(thin.out.split("Confidence").next().is_some_and(|answer| answer.contains("crown")), "{}", thin.out);
    for line in said.out.lines().chain(thin.out.lines()) {
        assert!(line.chars().count() <= 80, "{line}");
    }
    assert!(!said.out.to_lowercase().contains("is safe"));
    Ok(())
}

#[test]
fn same_bytes_twice() -> Tested {
    assert_eq!(asked(COARSE, &[])?.0.out, asked(COARSE, &[])?.0.out);
    Ok(())
}

#[test]
fn told_and_by_hand() -> Tested {
    let said = layload(&["check", "--quick", COARSE, "--job", BENCH, "--part", "rod"])?;
    assert_eq!(said.code, Some(2));
    assert!(said.complains("no connecting rod"), "{}", said.err);
    let (_, found) = asked(COARSE, &["--part", "piston"])?;
    let by_hand =
        ["--crown-direction", "0,0,1", "--piston-body", "0,0,5,33.7", "--pin-bore", "0,0,0,10", "--pin-axis", "1,0,0"];
    let (_, named) = asked(COARSE, &by_hand)?;
    let height = |report: &Value| report["piston"]["compression_height_mm"].as_f64().unwrap_or(f64::NAN);
    assert!((height(&found) - height(&named)).abs() < 0.05);
    let plug = layload(&["check", "--quick", "tests/meshes/plug.stl", "--job", BENCH])?;
    assert_eq!(plug.code, Some(2));
    assert!(plug.complains("--part piston") && plug.complains("both ends"), "{}", plug.err);
    Ok(())
}

/// In words of a piston, and within a page's width.
#[test]
fn which_way_up_to_print_one() -> Tested {
    let said = layload(&["directions", "--quick", FLAT, "--job", BENCH])?;
    assert!(matches!(said.code, Some(1 | 3)), "{said:?}");
    let words = said.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("Print it upright, the crown on") || words.contains("Print it on its side"), "{words}");
    assert!(!words.contains(" rod"), "{words}");
    assert!(said.out.lines().all(|line| line.chars().count() <= 80), "{}", said.out);
    Ok(())
}

#[test]
fn walls_of_a_piston_are_named() -> Tested {
    let said = layload(&["walls", THIN, "--least-mm", "1.8", "--json"])?;
    assert_eq!(said.code, Some(0), "{}", said.err);
    let report: Value = serde_json::from_str(&said.out)?;
    let regions = report["thin_regions"].as_array().ok_or("none")?;
    let crown = regions.iter().find(|region| region["place"] == "crown").ok_or_else(|| format!("{regions:?}"))?;
    // Built 1.6 mm thick over a disc of 24 mm less bosses and walls.
    assert!((crown["least_thickness_mm"].as_f64().ok_or("none")? - 1.6).abs() < 0.02, "{crown}");
    assert!(crown["area_mm2"].as_f64().is_some_and(|area| area > 250.0), "{crown}");
    let text = layload(&["walls", THIN, "--least-mm", "1.8"])?;
    assert!(text.out.lines().all(|line| line.chars().count() <= 80), "{}", text.out);
    Ok(())
}

#[test]
fn speeds_of_a_piston() -> Tested {
    let said = layload(&[
        "sweep", "--quick", COARSE, "--job", BENCH, "--from", "1500", "--to", "6000", "--count", "4", "--json",
    ])?;
    assert_eq!(said.code, Some(0), "{}", said.err);
    let report: Value = serde_json::from_str(&said.out)?;
    let points = report["sweep"].as_array().ok_or("none")?;
    assert_eq!(points.len(), 4);
    let hot = |index: usize| points[index]["peak_temperature_c"].as_f64().unwrap_or(f64::NAN);
    assert!(hot(3) > hot(0) + 5.0, "{points:?}");
    Ok(())
}

#[test]
fn bad_numbers_of_a_piston_are_refused() -> Tested {
    let text = std::fs::read_to_string(top().join(BENCH))?;
    for (number, line) in [
        "rod_length_mm = -90.0",
        "rod_length_mm = 20.0",
        "cylinder_wall_c = 4000.0",
        "soft_share = 0.0",
        "crown_thickness_mm = -1.0",
        "underside_film_w_m2_k = nan",
        "grooves = 3",
        "layers = [{ name = \"x\", thickness_mm = 0.0, conductivity_w_m_k = 1.0, density_kg_m3 = 1000.0, \
         specific_heat_j_kg_k = 1000.0 }]",
    ]
    .iter()
    .enumerate()
    {
        let key = line.split(' ').next().unwrap_or_default();
        let kept: Vec<&str> = text.lines().filter(|old| !old.starts_with(key)).collect();
        let job = file(&format!("bad_piston_{number}.toml"), format!("{}\n{line}\n", kept.join("\n")))?;
        let said = layload(&["check", "--quick", COARSE, "--job", &job])?;
        assert_eq!(said.code, Some(2), "{line}: {}", said.out);
        assert!(!said.err.is_empty() && !said.complains("panicked"), "{line}: {}", said.err);
    }
    // A rod's own job still serves.
    let job = changed_job("rod_job_for_piston.toml", "[duty]", "[duty]")?;
    assert!(matches!(layload(&["check", "--quick", COARSE, "--job", &job])?.code, Some(1 | 3)));
    Ok(())
}

#[test]
fn the_field_of_a_piston_in_words_and_paint() -> Tested {
    let few = ["--cells", "2000"];
    let said = layload(&[&["check", COARSE, "--job", BENCH, "--json", "--facets"], &few[..]].concat())?;
    let report: Value = serde_json::from_str(&said.out)?;
    let field = &report["field"];
    assert_eq!(field["raised"].as_array().map(Vec::len), Some(4));
    assert!(field["solves"].as_array().is_some_and(|s| s.iter().any(|solve| solve["name"] == "gas on the crown")));
    assert!(report["facet_utilisation"].as_array().is_some_and(|facets| !facets.is_empty()));
    let said = layload(&[&["check", COARSE, "--job", BENCH, "--all"], &few[..]].concat())?;
    let words: String = said.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("Stress field") && words.contains("over pressure times the square of radius"), "{words}");
    assert!(words.contains("presses evenly along the bosses"), "{words}");
    // Painted by the field alone.
    let said = layload(&["check", "--quick", COARSE, "--job", BENCH, "--json", "--facets"])?;
    assert_eq!((said.code, said.out.as_str()), (Some(2), ""));
    assert!(said.complains("a piston is painted by its stress field") && said.complains("--quick"), "{}", said.err);
    Ok(())
}
