//! The names that scripts may rely on.

use serde_json::Value;

use super::Tested;
use super::run::{ROD, layload, report};

fn numbers(value: &Value, at: &str, names: &[&str]) {
    for name in names {
        assert!(value[name].is_number(), "{at}.{name} is {}", value[name]);
    }
}

fn triple(value: &Value) -> Vec<f64> {
    value.as_array().map(|list| list.iter().filter_map(Value::as_f64).collect()).unwrap_or_default()
}

#[test]
fn all_there_and_of_their_kind() -> Tested {
    for mesh in
        [ROD, "tests/meshes/half_bore_no_cap.stl", "tests/meshes/overlapping_shells.stl", "samples/bearing_rod.stl"]
    {
        let report = report(mesh, &[])?;
        assert!(report["schema_version"].is_string(), "{mesh}");
        numbers(&report["mesh"], "mesh", &["facet_count", "volume_mm3"]);
        assert!(report["mesh"]["closed"].is_boolean());
        assert_eq!(report["part"]["kind"], "connecting-rod");
        numbers(&report["part"], "part", &["center_distance_mm"]);
        let bores = report["part"]["bores"].as_array().ok_or("no bores")?;
        let roles: Vec<_> = bores.iter().map(|bore| bore["role"].as_str().unwrap_or_default()).collect();
        assert_eq!(roles, ["small-end", "big-end"]);
        for bore in bores {
            numbers(bore, "part.bores[]", &["diameter_mm"]);
            assert_eq!((triple(&bore["center_mm"]).len(), triple(&bore["axis"]).len()), (3, 3));
            let length: f64 = triple(&bore["axis"]).iter().map(|c| c * c).sum();
            assert!((length - 1.0).abs() < 1e-12, "axis of length {length}");
        }
        for station in report["stations"].as_array().ok_or("no stations")? {
            let names = [
                "position_mm",
                "area_mm2",
                "second_moment_min_mm4",
                "axial_force_max_n",
                "axial_force_min_n",
                "stress_max_mpa",
                "stress_min_mpa",
                "utilisation",
            ];
            numbers(station, "stations[]", &names);
        }
        let verdict = &report["verdict"];
        assert_eq!(verdict["holds"].is_null(), verdict["state"] == "no-fault-found");
        assert!(verdict["governing_mode"].is_string() && verdict["governing_place"].is_string());
        numbers(verdict, "verdict", &["life_s", "life_revolutions"]);
        // No speed may hold; then there is none to name.
        assert!(verdict.get("max_rpm").is_some_and(|rpm| rpm.is_number() || rpm.is_null()));
        for entry in report["assumptions"].as_array().ok_or("no assumptions")? {
            assert!(entry["name"].is_string() && entry["unit"].is_string() && entry["source"].is_string(), "{entry}");
            assert!(entry["value"].is_number() || entry["value"].is_string(), "{entry}");
        }
        let cautions = report["cautions"].as_array().ok_or("no cautions")?;
        assert!(!cautions.is_empty() && cautions.iter().all(Value::is_string));
    }
    Ok(())
}

#[test]
fn values_that_are_known() -> Tested {
    let report = report("tests/meshes/loose_bodies.stl", &[])?;
    assert_eq!(report["mesh"]["facet_count"], 4524);
    assert_eq!(report["mesh"]["closed"], true);
    assert_eq!(report["part"]["left_out"].as_array().map(Vec::len), Some(2));
    let number = |value: &Value| value.as_f64().unwrap_or(f64::NAN);
    // What is asked of recognition: 0.05 mm between centres, 0.1 mm and the sagitta (0.02 mm) of a diameter.
    assert!((number(&report["part"]["center_distance_mm"]) - 90.0).abs() < 0.05);
    assert!((number(&report["part"]["bores"][0]["diameter_mm"]) - 13.0).abs() < 0.12);
    assert!((number(&report["part"]["bores"][1]["diameter_mm"]) - 24.0).abs() < 0.12);
    Ok(())
}

#[test]
fn volume_of_overlapping_shells_is_of_their_union() -> Tested {
    let truth: Value = serde_json::from_slice(&std::fs::read(super::run::top().join("tests/meshes/truth.json"))?)?;
    let truth =
        truth["files"]["tests/meshes/overlapping_shells.stl"]["united_volume_mm3"].as_f64().ok_or("no truth")?;
    let report = report("tests/meshes/overlapping_shells.stl", &[])?;
    let volume = report["mesh"]["volume_mm3"].as_f64().ok_or("no volume")?;
    // Straight lines between 200 cuts along 121 mm.
    assert!((volume / truth - 1.0).abs() < 5e-3, "{volume} mm³ instead of {truth}");
    Ok(())
}

#[test]
fn the_report_is_all_that_is_printed() -> Tested {
    let said = layload(&["check", "--quick", ROD, "--job", super::run::JOB, "--json"])?;
    assert!(said.out.starts_with('{') && said.out.ends_with("}\n"));
    assert_eq!(said.err, "");
    Ok(())
}
