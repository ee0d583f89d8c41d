//! Numbers on the command line are enough, and override the job file; every number taken is listed.

use serde_json::Value;

use super::Tested;
use super::run::{ENOUGH, ROD, check, layload, report};

/// The assumption of a name.
fn assumption<'a>(report: &'a Value, name: &str) -> Option<&'a Value> {
    report["assumptions"].as_array()?.iter().find(|entry| entry["name"] == name)
}

#[test]
fn five_numbers_are_enough() -> Tested {
    let said = layload(&[&["check", "--quick", ROD, "--json"], &ENOUGH[..]].concat())?;
    assert!(matches!(said.code, Some(1 | 3)), "{said:?}");
    assert_eq!(said.err, "");
    let report: Value = serde_json::from_str(&said.out)?;
    for (name, value) in
        [("stroke", 46.0), ("cylinder bore", 52.0), ("reciprocating mass", 96.0), ("highest speed of the duty", 3000.0)]
    {
        let entry = assumption(&report, name).ok_or(name)?;
        assert_eq!((entry["value"].as_f64(), entry["source"].as_str()), (Some(value), Some("given")), "{name}");
    }
    let material = assumption(&report, "material").ok_or("material")?;
    assert_eq!((material["value"].as_str(), material["source"].as_str()), (Some("PA12-CF15"), Some("given")));
    Ok(())
}

#[test]
fn every_default_is_listed_as_such() -> Tested {
    let said = layload(&[&["check", "--quick", ROD, "--json"], &ENOUGH[..]].concat())?;
    let report: Value = serde_json::from_str(&said.out)?;
    for name in [
        "compression ratio",
        "pin offset",
        "crankcase pressure",
        "working cycle",
        "compression exponent",
        "expansion exponent",
        "radial clearance of the piston pin",
        "radial clearance in the big end",
        "build direction",
        "bead width",
        "layer height",
        "walls",
        "skin layers",
        "infill",
        "crankcase air",
        "piston pin",
        "moisture",
        "wanted life",
        "mean-stress rule",
        "stations",
        "column length factor",
    ] {
        let entry = report["assumptions"]
            .as_array()
            .and_then(|list| list.iter().find(|entry| entry["name"].as_str().is_some_and(|n| n.starts_with(name))))
            .ok_or(format!("{name} is not listed"))?;
        assert!(
            ["common-practice", "memory"].contains(&entry["source"].as_str().unwrap_or_default()),
            "{name}: {entry}"
        );
    }
    let text = layload(&[&["check", "--quick", ROD, "--inputs"], &ENOUGH[..]].concat())?;
    for entry in report["assumptions"].as_array().ok_or("no assumptions")? {
        let name = entry["name"].as_str().unwrap_or_default();
        assert!(text.out.contains(name), "`{name}` is not in the text");
    }
    Ok(())
}

#[test]
fn options_override_the_job() -> Tested {
    let options = [
        "--stroke-mm",
        "40",
        "--bore-mm",
        "50",
        "--reciprocating-mass-g",
        "90",
        "--compression-ratio",
        "8",
        "--rpm",
        "4321",
        "--material",
        "PEEK",
        "--temperature-c",
        "55",
        "--wanted-life-h",
        "3",
        "--walls",
        "2",
        "--bead-width-mm",
        "0.5",
        "--layer-height-mm",
        "0.25",
        "--infill-percent",
        "40",
        "--peak-pressure-bar",
        "31",
        "--moisture",
        "dry",
        "--build-direction",
        "on-edge",
        "--strokes",
        "two",
    ];
    let report = report(ROD, &options)?;
    for (name, value) in [
        ("stroke", 40.0),
        ("cylinder bore", 50.0),
        ("reciprocating mass", 90.0),
        ("compression ratio", 8.0),
        ("highest speed of the duty", 4321.0),
        ("part temperature", 55.0),
        ("wanted life", 3.0),
        ("walls", 2.0),
        ("bead width", 0.5),
        ("layer height", 0.25),
        ("infill", 40.0),
        ("peak cylinder pressure", 31.0),
    ] {
        let entry = assumption(&report, name).ok_or(name)?;
        assert_eq!((entry["value"].as_f64(), entry["source"].as_str()), (Some(value), Some("given")), "{name}");
    }
    for (name, word) in
        [("material", "PEEK"), ("moisture", "dry"), ("build direction", "on-edge"), ("working cycle", "two-stroke")]
    {
        let entry = assumption(&report, name).ok_or(name)?;
        assert_eq!((entry["value"].as_str(), entry["source"].as_str()), (Some(word), Some("given")), "{name}");
    }
    assert_eq!(report["verdict"]["duty_rpm"].as_f64(), Some(4321.0));
    Ok(())
}

#[test]
fn the_printed_peak_pressure_is_the_one_asked_for() -> Tested {
    for bar in ["20", "35"] {
        let report = report(ROD, &["--peak-pressure-bar", bar])?;
        let peak = report["loads"]["peak_pressure_bar"].as_f64().ok_or("no peak")?;
        // The cycle is scaled until its peak is met; half a degree of crank between samples.
        assert!((peak / bar.parse::<f64>()? - 1.0).abs() < 1e-3, "{peak} bar instead of {bar}");
    }
    Ok(())
}

#[test]
fn build_directions() -> Tested {
    // This rod lies in the plane of x and y at 15 degrees to x, its pins along z.
    for (option, to_rod, to_bores) in [
        ("flat", 90.0, 0.0),
        ("on-edge", 90.0, 90.0),
        ("upright", 0.0, 90.0),
        ("0,0,-3", 90.0, 0.0),
        ("1,0,0", 15.0, 90.0),
        ("0,0,1e-200", 90.0, 0.0),
        ("0,0,1e200", 90.0, 0.0),
    ] {
        let report = report(ROD, &["--build-direction", option])?;
        let print = &report["print"];
        let number = |name: &str| print[name].as_f64().unwrap_or(f64::NAN);
        // Recognition finds the axes to well below 0.1 degrees.
        assert!((number("angle_to_axis_deg") - to_rod).abs() < 0.1, "{option}: {print}");
        assert!((number("angle_to_bores_deg") - to_bores).abs() < 0.1, "{option}: {print}");
        let direction: Vec<f64> =
            print["build_direction"].as_array().ok_or("no direction")?.iter().filter_map(Value::as_f64).collect();
        let length: f64 = direction.iter().map(|c| c * c).sum();
        assert!((length - 1.0).abs() < 1e-12, "{direction:?}");
    }
    Ok(())
}

#[test]
fn bores_by_hand_replace_recognition() -> Tested {
    let found = report(ROD, &[])?;
    let named =
        report(ROD, &["--small-end", "5,-4,7,13", "--big-end", "91.93332,19.29371,7,24", "--pin-axis", "0,0,1"])?;
    for (a, b) in [
        (&found["part"]["center_distance_mm"], &named["part"]["center_distance_mm"]),
        (&found["part"]["bores"][1]["diameter_mm"], &named["part"]["bores"][1]["diameter_mm"]),
        (&found["mesh"]["volume_mm3"], &named["mesh"]["volume_mm3"]),
    ] {
        let (a, b) = (a.as_f64().unwrap_or(f64::NAN), b.as_f64().unwrap_or(f64::NAN));
        // What is asked of recognition, 0.05 mm.
        assert!((a - b).abs() < 0.05, "{a} {b}");
    }
    Ok(())
}

#[test]
fn an_option_does_not_change_the_rest() -> Tested {
    let (plain, changed) = (report(ROD, &[])?, report(ROD, &["--rpm", "6000"])?);
    assert_eq!(plain["mesh"], changed["mesh"]);
    assert_eq!(plain["part"], changed["part"]);
    assert_ne!(plain["loads"], changed["loads"]);
    assert_ne!(check(&[])?.out, check(&["--rpm", "6000"])?.out);
    Ok(())
}
