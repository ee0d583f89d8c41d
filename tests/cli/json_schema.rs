//! Reports follow the schema that the program publishes.

use serde_json::{Value, json};

use super::Tested;
use super::run::{ENOUGH, ROD, layload, report, top};

fn schema() -> Result<Value, Box<dyn std::error::Error>> {
    Ok(serde_json::from_str(&layload(&["schema"])?.out)?)
}

#[test]
fn every_kind_of_report() -> Tested {
    let validator = jsonschema::validator_for(&schema()?)?;
    let mut reports = Vec::new();
    for mesh in
        ["half_bore_no_cap", "overlapping_shells", "loose_bodies", "small_hole", "inner_void", "ascii_odd_spacing"]
    {
        reports.push((mesh.to_string(), report(&format!("tests/meshes/{mesh}.stl"), &[])?));
    }
    for options in [
        &["--rpm", "100"][..],
        // Faster, a piston would move at 300 m/s on average, which is refused.
        &["--rpm", "190000"],
        &["--temperature-c", "590"],
        &["--temperature-c", "-59"],
        &["--infill-percent", "0"],
        &["--peak-pressure-bar", "40"],
        &["--build-direction", "upright"],
        &["--material", "PEEK", "--wanted-life-h", "1000000"],
    ] {
        reports.push((format!("{options:?}"), report(ROD, options)?));
    }
    let numbers = layload(&[&["check", "--quick", ROD, "--json"], &ENOUGH[..]].concat())?;
    reports.push(("numbers alone".into(), serde_json::from_str(&numbers.out)?));
    for (name, report) in &reports {
        let faults: Vec<String> =
            validator.iter_errors(report).map(|fault| format!("{}: {fault}", fault.instance_path())).collect();
        assert!(faults.is_empty(), "{name}:\n{}", faults.join("\n"));
    }
    Ok(())
}

#[test]
fn the_schema_can_refuse() -> Tested {
    let validator = jsonschema::validator_for(&schema()?)?;
    let good = report(ROD, &[])?;
    assert!(validator.is_valid(&good));
    for (pointer, wrong) in [
        ("/verdict/holds", json!("yes")),
        ("/verdict/life_s", json!(null)),
        ("/part/kind", json!("crank")),
        ("/stations/0/area_mm2", json!("wide")),
        ("/mesh", json!([])),
        ("/part/bores/0/center_mm", json!([1.0, 2.0])),
    ] {
        let mut bad = good.clone();
        *bad.pointer_mut(pointer).ok_or(pointer)? = wrong;
        assert!(!validator.is_valid(&bad), "{pointer}");
    }
    let mut bad = good;
    bad.as_object_mut().ok_or("no object")?.remove("cautions");
    assert!(!validator.is_valid(&bad), "without cautions");
    Ok(())
}

#[test]
fn the_schema_itself_is_sound_and_steady() -> Tested {
    let schema = schema()?;
    assert!(jsonschema::meta::is_valid(&schema));
    assert_eq!(layload(&["schema"])?, layload(&["schema"])?);
    for name in ["schema_version", "mesh", "part", "stations", "verdict", "assumptions", "cautions"] {
        assert!(
            schema["required"].as_array().is_some_and(|list| list.contains(&json!(name))),
            "{name} may be left out"
        );
    }
    Ok(())
}

/// The same without what only parts of any kind have: the component leaves them out.
fn without_any(mut schema: Value) -> Value {
    if let Some(properties) = schema["properties"].as_object_mut() {
        properties.remove("any");
    }
    loop {
        let text = schema.to_string();
        let Some(kinds) = schema.get_mut("$defs").and_then(Value::as_object_mut) else { return schema };
        let before = kinds.len();
        kinds.retain(|name, _| text.contains(&format!("\"#/$defs/{name}\"")));
        if kinds.len() == before {
            return schema;
        }
    }
}

/// The plugin carries the schemas as text; `LAYLOAD_WRITE_SCHEMAS=1` writes them anew.
#[test]
fn the_plugin_carries_the_same() -> Tested {
    for kind in ["check", "directions", "walls", "sweep"] {
        let now = without_any(serde_json::from_str(&layload(&["schema", kind])?.out)?);
        let path = top().join(format!("wasm-plugin/schemas/{kind}.json"));
        if std::env::var_os("LAYLOAD_WRITE_SCHEMAS").is_some() {
            std::fs::write(&path, format!("{now}\n"))?;
        }
        let carried: Value = serde_json::from_str(&std::fs::read_to_string(&path)?)?;
        assert!(carried == now, "{} is not what the reports are (LAYLOAD_WRITE_SCHEMAS=1 writes it)", path.display());
    }
    Ok(())
}
