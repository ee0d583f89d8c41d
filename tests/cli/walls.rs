//! `layload walls`, and parts painted in colours.

use std::fs;

use serde_json::Value;

use super::Tested;
use super::run::{JOB, ROD, file, layload, top};

const THIN: &str = "samples/thin_web_rod.stl";
const SAMPLE_JOB: &str = "samples/bench_single.toml";

fn asked(mesh: &str, options: &[&str]) -> Result<Value, Box<dyn std::error::Error>> {
    let said = layload(&[&["walls", mesh, "--job", SAMPLE_JOB, "--json"], options].concat())?;
    assert_eq!((said.code, said.err.as_str()), (Some(0), ""));
    Ok(serde_json::from_str(&said.out)?)
}

/// A name in the tests' own folder that is free.
fn free(name: &str) -> Result<String, Box<dyn std::error::Error>> {
    let path = file(name, b"")?;
    fs::remove_file(&path)?;
    Ok(path)
}

/// The thin web is where the sample's truth puts it, and is named with its reason; names that scripts may rely on.
#[test]
fn the_thin_web_is_found() -> Tested {
    let truth: Value = serde_json::from_slice(&fs::read(top().join("tests/meshes/truth.json"))?)?;
    let truth = &truth["files"][THIN];
    let web = truth["thin_web_mm"].as_f64().ok_or("no truth")?;
    let report = asked(THIN, &[])?;
    let regions = report["thin_regions"].as_array().ok_or("no regions")?;
    assert_eq!(regions.len(), 1);
    let region = &regions[0];
    assert!(region["place"].as_str().is_some_and(|place| place.starts_with("shank web, ")), "{region}");
    // Corners are in single precision, steps of some 1e-5 mm here.
    assert!((region["least_thickness_mm"].as_f64().ok_or("no thickness")? - web).abs() < 1e-4, "{region}");
    assert_eq!(region["center_mm"].as_array().map(Vec::len), Some(3));
    assert!(region["area_mm2"].is_number() && region["reason"].is_string());
    assert!(report.get("thickness_mm").is_none(), "facets are listed unasked");
    Ok(())
}

#[test]
fn the_other_samples_are_not_flagged() -> Tested {
    for mesh in ["samples/plain_rod.stl", "samples/i_shank_rod.stl"] {
        assert_eq!(asked(mesh, &[])?["thin_regions"].as_array().map(Vec::len), Some(0), "{mesh}");
    }
    Ok(())
}

/// Walls are a matter of mesh and printer: no engine is asked for, and with the usual bead the answer is the same.
#[test]
fn no_engine_is_needed() -> Tested {
    let said = layload(&["walls", THIN, "--json"])?;
    assert_eq!((said.code, said.err.as_str()), (Some(0), ""));
    let report: Value = serde_json::from_str(&said.out)?;
    assert_eq!(report["thin_regions"], asked(THIN, &[])?["thin_regions"]);
    Ok(())
}

#[test]
fn every_facet_when_asked() -> Tested {
    let report = asked(THIN, &["--facets"])?;
    let thickness = report["thickness_mm"].as_array().ok_or("no facets")?;
    assert_eq!(Some(thickness.len() as u64), report["facet_count"].as_u64());
    let least = thickness.iter().filter_map(Value::as_f64).fold(f64::INFINITY, f64::min);
    assert_eq!(Some(least), report["least_thickness_mm"].as_f64());
    Ok(())
}

#[test]
fn a_limit_of_the_users_own() -> Tested {
    let report = asked("samples/i_shank_rod.stl", &["--least-mm", "4"])?;
    let regions = report["thin_regions"].as_array().ok_or("no regions")?;
    assert!(regions.iter().any(|region| region["cause"] == "below-given"), "{regions:?}");
    let said = layload(&["walls", ROD, "--job", JOB, "--least-mm", "-1"])?;
    assert_eq!(said.code, Some(2));
    Ok(())
}

#[test]
fn follows_its_schema() -> Tested {
    let schema: Value = serde_json::from_str(&layload(&["schema", "walls"])?.out)?;
    let validator = jsonschema::validator_for(&schema)?;
    for options in [&["--facets"][..], &["--least-mm", "4"]] {
        let report = asked(THIN, options)?;
        let faults: Vec<String> = validator.iter_errors(&report).map(|error| error.to_string()).collect();
        assert!(faults.is_empty(), "{faults:?}");
    }
    Ok(())
}

#[test]
fn painted_parts_are_written_whole_and_never_over_others() -> Tested {
    let (package, legend) = (free("painted_walls.3mf")?, free("painted_walls.svg")?);
    let arguments = ["walls", THIN, "--job", SAMPLE_JOB, "--mesh-out", &package, "--legend-out", &legend];
    assert_eq!(layload(&arguments)?.code, Some(0));
    let (first, scale) = (fs::read(&package)?, fs::read_to_string(&legend)?);
    assert!(first.starts_with(b"PK") && scale.to_lowercase().contains("wall thickness"));
    // A second time it is refused before anything is done.
    let said = layload(&arguments)?;
    assert_eq!((said.code, said.out.as_str()), (Some(2), ""));
    assert!(said.complains("--overwrite"), "{}", said.err);
    assert_eq!(layload(&[&arguments[..], &["--overwrite"]].concat())?.code, Some(0));
    assert_eq!(fs::read(&package)?, first, "the same bytes again");
    Ok(())
}

#[test]
fn a_check_paints_what_is_used() -> Tested {
    let path = free("painted_check.ply")?;
    let said = layload(&["check", "--quick", THIN, "--job", SAMPLE_JOB, "--json", "--mesh-out", &path])?;
    let report: Value = serde_json::from_str(&said.out)?;
    let bytes = fs::read(&path)?;
    assert!(bytes.starts_with(b"ply\nformat binary_little_endian 1.0\n"));
    let header = String::from_utf8_lossy(&bytes[..bytes.len().min(2000)]).into_owned();
    assert!(header.contains("stress over what lasts"), "{header}");
    assert!(header.contains(&format!("element face {}", report["mesh"]["facet_count"])), "{header}");
    Ok(())
}

/// What governs is found on the surface: the most used facet is used by 1 over the least margin of the modes that a place
/// on the surface can have. Facets are looked at in their middle, a little inside the corners that modes are taken at.
#[test]
fn a_check_lists_what_is_used() -> Tested {
    for rpm in ["4000", "7000"] {
        let said = layload(&["check", "--quick", THIN, "--job", SAMPLE_JOB, "--rpm", rpm, "--json", "--facets"])?;
        let report: Value = serde_json::from_str(&said.out)?;
        let used: Vec<f64> =
            report["facet_utilisation"].as_array().ok_or("no facets")?.iter().filter_map(Value::as_f64).collect();
        assert_eq!(Some(used.len() as u64), report["mesh"]["facet_count"].as_u64());
        let most = used.iter().copied().fold(0.0, f64::max);
        let modes = report["modes"].as_array().ok_or("no modes")?.iter();
        let surface = ["fatigue-in-layer-plane", "overload-in-layer-plane", "crushing", "creep-rupture-in-layer-plane"];
        let margins = modes.filter(|mode| surface.iter().any(|word| mode["mode"] == *word));
        let least = margins.filter_map(|mode| mode["margin"].as_f64()).fold(f64::INFINITY, f64::min);
        // Between corners a facet has the fatigue of the nearest one, scaled by stress: up to a hundredth too much.
        assert!(most > 0.93 / least && most < 1.01 / least, "{rpm}: {most} on facets, 1/{least} by modes");
    }
    Ok(())
}

/// Too thin for its stress only where the speed is more than it bears, and only where a speed is known.
#[test]
fn walls_too_thin_for_their_stress() -> Tested {
    let causes = |walls: &Value| -> Vec<(String, f64, f64, String)> {
        let regions = walls["thin_regions"].as_array().cloned().unwrap_or_default();
        let number = |region: &Value, key: &str| region[key].as_f64().unwrap_or(f64::NAN);
        regions
            .iter()
            .filter(|region| region["cause"] == "stress")
            .map(|r| {
                let place = r["place"].as_str().unwrap_or_default().to_string();
                (place, number(r, "least_thickness_mm"), number(r, "limit_mm"), r["reason"].to_string())
            })
            .collect()
    };
    let slow = asked(THIN, &["--rpm", "4000"])?;
    assert_eq!(slow["stress_looked_at"], true);
    assert!(causes(&slow).is_empty(), "{:?}", causes(&slow));
    let fast = causes(&asked(THIN, &["--rpm", "7500"])?);
    assert!(fast.iter().any(|(place, ..)| place.contains("shank")), "{fast:?}");
    for (place, least, limit, reason) in &fast {
        assert!(limit > least && reason.contains("times the stress"), "{place}: {least} {limit} {reason}");
    }
    let unknown = layload(&["walls", THIN, "--json"])?;
    let unknown: Value = serde_json::from_str(&unknown.out)?;
    assert_eq!(unknown["stress_looked_at"], false);
    assert!(unknown["notes"].to_string().contains("stress was not checked"));
    Ok(())
}

#[test]
fn other_kinds_of_file_are_refused() -> Tested {
    let path = free("painted.obj")?;
    let said = layload(&["walls", THIN, "--job", SAMPLE_JOB, "--mesh-out", &path])?;
    assert_eq!((said.code, said.out.as_str()), (Some(2), ""));
    assert!(said.complains(".3mf"), "{}", said.err);
    assert!(!std::path::Path::new(&path).exists());
    Ok(())
}
