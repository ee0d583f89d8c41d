//! What a reader may lean on: margins past the limit, ranges of speed, what was left unchecked.

use serde_json::Value;

use super::Tested;
use super::run::layload;

const JOB: &str = "samples/bench_single.toml";

fn checked(mesh: &str, options: &[&str]) -> Result<Value, Box<dyn std::error::Error>> {
    let said = layload(&[&["check", mesh, "--job", JOB, "--json"], options].concat())?;
    Ok(serde_json::from_str(&said.out).map_err(|error| format!("{error}: {}", said.err))?)
}

fn margin(report: &Value, mode: &str) -> f64 {
    let modes = report["modes"].as_array().into_iter().flatten();
    let found = modes.filter(|entry| entry["mode"].as_str().is_some_and(|name| name.starts_with(mode)));
    found.filter_map(|entry| entry["margin"].as_f64()).fold(f64::INFINITY, f64::min)
}

/// Past the strength of one load the margin against fatigue stays a margin: it falls on with speed, it does not drop to 0.
#[test]
fn margins_stay_known_past_the_limit() -> Tested {
    let mut before = f64::INFINITY;
    for rpm in ["4000", "5000", "6000", "7000", "9000"] {
        let report = checked("samples/plain_rod.stl", &["--build-direction", "upright", "--rpm", rpm])?;
        let found = margin(&report, "fatigue");
        assert!(found > 0.02 && found < before, "{found} at {rpm} rpm, {before} before");
        before = found;
    }
    Ok(())
}

/// No single value of the card may be said to move the margin by more than ten.
#[test]
fn uncertainty_stays_readable_at_a_cliff() -> Tested {
    for options in [&["--material", "ABS"][..], &["--material", "PLA"], &["--rpm", "9000"]] {
        let report = checked("samples/plain_rod.stl", options)?;
        let factor = report["founding"]["margin_factor"].as_f64().ok_or("no factor")?;
        assert!((1.0..1e3).contains(&factor), "{options:?}: {factor}");
        // A margin of nothing is founded on nothing.
        if report["verdict"]["margin"] == 0.0 {
            assert_eq!(report["verdict"]["well_founded"], false, "{options:?}");
        }
    }
    Ok(())
}

/// A rod that holds at its duty has a speed limit or a range round it; never none.
#[test]
fn a_rod_that_holds_has_a_speed() -> Tested {
    let mut looked_at = 0;
    for sample in ["plain_rod", "i_shank_rod", "thin_web_rod", "bearing_rod"] {
        let mesh = format!("samples/{sample}.stl");
        let report = checked(&mesh, &[])?;
        let verdict = &report["verdict"];
        if verdict["holds"] != true {
            continue;
        }
        looked_at += 1;
        let number = |name: &str| verdict[name].as_f64();
        let (duty, high) = (number("duty_rpm").ok_or("no duty")?, number("max_rpm").ok_or("no speed")?);
        assert!(high >= duty * 0.999, "{sample}: {high} below {duty}");
        if let Some(low) = number("min_rpm") {
            assert!(low <= duty * 1.001 && verdict["max_rpm_meaning"] == "range", "{sample}: {low}");
        }
    }
    assert!(looked_at >= 3, "only {looked_at} samples hold");
    Ok(())
}

/// What breaks at the first load is named before what takes time.
#[test]
fn at_once_comes_first() -> Tested {
    let report = checked("samples/plain_rod.stl", &["--temperature-c", "120"])?;
    let first = report["verdict"]["governing_mode"].as_str().unwrap_or_default();
    let fails_at_once = ["pin-pressure", "bearing-pressure", "overload", "crushing", "buckling", "softening"]
        .iter()
        .any(|mode| margin(&report, mode) < 1.0);
    assert!(fails_at_once, "the case must be one that fails at once");
    assert!(!first.starts_with("fatigue"), "{first}");
    Ok(())
}

/// A lighter inside takes strength from an eye: hoop stress goes up with what is missing.
#[test]
fn infill_weakens_the_eyes() -> Tested {
    let hoop = |report: &Value| report["eyes"][0]["hoop_stress_max_mpa"].as_f64().unwrap_or(f64::NAN);
    let solid = checked("samples/plain_rod.stl", &[])?;
    let light = checked("samples/plain_rod.stl", &["--walls", "2", "--infill-percent", "60"])?;
    assert!(hoop(&light) > 1.2 * hoop(&solid), "{} {}", hoop(&light), hoop(&solid));
    assert!(light["verdict"]["margin"].as_f64() < solid["verdict"]["margin"].as_f64());
    Ok(())
}

#[test]
fn bores_by_hand_must_be_there() -> Tested {
    for (small, big) in [("20,15,7,20", "20,105,7,30"), ("20,60,7,13", "20,105,7,24")] {
        let options = ["--small-end", small, "--big-end", big, "--pin-axis", "0,0,1"];
        let said = layload(&[&["check", "samples/plain_rod.stl", "--job", JOB][..], &options].concat())?;
        assert_eq!(said.code, Some(2), "{small} {big}: {}", said.out);
        assert!(said.complains("no wall of"), "{}", said.err);
    }
    Ok(())
}

#[test]
fn what_is_not_checked_stands_beside_the_verdict() -> Tested {
    for (mesh, word) in [
        ("tests/meshes/slotted_small_end.stl", "open over"),
        ("tests/meshes/half_bore_no_cap.stl", "half bore"),
        ("tests/meshes/overlapping_shells.stl", "joints"),
    ] {
        let report = checked(mesh, &[])?;
        let list = report["verdict"]["unchecked"].as_array().ok_or("no list")?;
        assert!(list.iter().any(|entry| entry.as_str().is_some_and(|text| text.contains(word))), "{mesh}: {list:?}");
        let said = layload(&["check", mesh, "--job", JOB])?;
        let first: Vec<&str> = said.out.lines().take(12).collect();
        assert!(first.join(" ").contains("not checked"), "{mesh}: {first:?}");
    }
    let report = checked("samples/plain_rod.stl", &[])?;
    assert_eq!(report["verdict"]["unchecked"].as_array().map(Vec::len), Some(0));
    Ok(())
}
