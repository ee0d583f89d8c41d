//! What a reader may lean on: margins past the limit, ranges of speed, what was left unchecked.

use serde_json::Value;

use super::Tested;
use super::run::layload;

const JOB: &str = "samples/bench_single.toml";

fn checked(mesh: &str, options: &[&str]) -> Result<Value, Box<dyn std::error::Error>> {
    let said = layload(&[&["check", "--quick", mesh, "--job", JOB, "--json"], options].concat())?;
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
        let factor = report["uncertainty"]["margin_factor"].as_f64().ok_or("no factor")?;
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
        if verdict["state"] != "no-fault-found" {
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

/// The line that names what fails first carries that mode's own margin, which is the first row of the table; the margin of
/// all modes together is another number and named as such.
#[test]
fn the_first_line_is_the_first_row() -> Tested {
    for (mesh, job, options) in [
        ("samples/plain_rod.stl", JOB, &[][..]),
        ("samples/i_shank_rod.stl", JOB, &["--temperature-c", "120"]),
        ("samples/plain_rod.stl", JOB, &["--peak-pressure-bar", "60"]),
        ("samples/split_rod.stl", "samples/bench_split.toml", &["--rpm", "9000"]),
        ("samples/thin_crown_piston.stl", "samples/bench_piston.toml", &[]),
        ("samples/flat_crown_piston.stl", "samples/bench_piston.toml", &["--material", "PLA"]),
    ] {
        let said = layload(&[&["check", "--quick", mesh, "--job", job, "--stations"], options].concat())?;
        // The first row of the first screen and of the table of all modes, by their columns.
        let cells = |title: &str, from: usize| -> (String, String) {
            let rows = said.out.split(title).nth(1).unwrap_or_default();
            let row = rows.lines().nth(1).unwrap_or_default();
            let cell =
                |skip: usize, take: usize| row.chars().skip(skip).take(take).collect::<String>().trim().to_string();
            (cell(0, from), cell(from, 21))
        };
        let (margin, mode) = cells("Weakest places", 9);
        assert_eq!((margin.clone(), mode.clone()), cells("Failure modes", 12), "{mesh} {options:?}: {}", said.out);
        let report: Value = serde_json::from_str(
            &layload(&[&["check", "--quick", mesh, "--job", job, "--json"], options].concat())?.out,
        )?;
        let number = |name: &str| report["verdict"][name].as_f64().unwrap_or(f64::NAN);
        assert!(number("margin") <= number("governing_margin") * 1.00001, "{mesh} {options:?}");
        // The report's own governing mode, in the words of the table.
        let explained = layload(&["explain", report["verdict"]["governing_mode"].as_str().unwrap_or_default()])?;
        assert!(explained.out.starts_with(&mode), "{mesh} {options:?}: {mode} {}", explained.out);
        let words = said.out.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(words.contains("for all failure modes together; 1 is the limit"), "{words}");
        // Where one row fails, the exit code says so.
        if margin.trim().parse::<f64>().is_ok_and(|margin| margin < 0.999) {
            assert_eq!(said.code, Some(1), "{mesh} {options:?}");
        }
    }
    Ok(())
}

/// What happens at the first full load is said of the mode that fails, not of any break.
#[test]
fn each_mode_says_what_happens() -> Tested {
    for (mesh, options, words) in [
        ("samples/i_shank_rod.stl", &["--temperature-c", "140", "--rpm", "2000"][..], "the pin presses its bore oval"),
        ("samples/plain_rod.stl", &["--material", "PLA", "--temperature-c", "80"], "the plastic softens"),
        ("samples/plain_rod.stl", &["--peak-pressure-bar", "19", "--gap", "0.1"], "the piston strikes the head within"),
    ] {
        let mut options: Vec<&str> = options.to_vec();
        let mut job = JOB.to_string();
        if let Some(at) = options.iter().position(|option| *option == "--gap") {
            let text = std::fs::read_to_string(super::run::top().join(JOB))?;
            let gap = format!("piston_to_head_mm = {}", options[at + 1]);
            job = super::run::file("judgement_gap.toml", text.replace("piston_to_head_mm = 1.0", &gap))?;
            options.drain(at..at + 2);
        }
        let said = layload(&[&["check", "--quick", mesh, "--job", &job], &options[..]].concat())?;
        let answer = said.out.split_whitespace().collect::<Vec<_>>().join(" ");
        let head = answer.split("Weakest places").next().unwrap_or_default();
        assert_eq!(said.code, Some(1), "{mesh} {options:?}: {head}");
        assert!(head.contains(words), "{mesh} {options:?}: {head}");
    }
    Ok(())
}

/// Bars of the table of changes are as long as their rank and point the way of the quantity that the title names.
#[test]
fn bars_of_changes_follow_their_order() -> Tested {
    for (mesh, job, options) in [
        ("samples/plain_rod.stl", JOB, &[][..]),
        ("samples/bearing_rod.stl", "samples/bench_bearings.toml", &[]),
        ("samples/split_rod.stl", "samples/bench_split.toml", &[]),
        ("samples/plain_rod.stl", JOB, &["--peak-pressure-bar", "120", "--temperature-c", "110"]),
        ("samples/flat_crown_piston.stl", "samples/bench_piston.toml", &[]),
        ("samples/thin_crown_piston.stl", "samples/bench_piston.toml", &[]),
        ("samples/flat_crown_piston.stl", "samples/bench_piston.toml", &["--material", "PLA"]),
    ] {
        let said = layload(&[&["check", "--quick", mesh, "--job", job, "--changes"], options].concat())?;
        let part = said.out.split("What a change does, largest effect on ").nth(1).ok_or("no changes")?;
        let by_life = part.starts_with("life first");
        let rows: Vec<&str> = part.lines().skip(2).take_while(|line| line.starts_with("  ")).collect();
        // A long change goes on in lines of its own.
        let rows: Vec<&str> = rows.into_iter().filter(|line| !line.starts_with("    ")).collect();
        assert!(rows.len() > 4, "{mesh}: {part}");
        let mut longest = usize::MAX;
        for row in rows.iter().filter(|row| !row.trim_start().starts_with("none:")) {
            assert!(!row.contains("x 0 ") && !row.ends_with("x 0"), "{row}");
            let (bar, cell) = (row.chars().skip(71).collect::<String>(), {
                let from = if by_life { 60 } else { 50 };
                row.chars().skip(from).take(10).collect::<String>().trim().to_string()
            });
            assert!(bar.len() <= longest, "{mesh}: {row} is longer than the one before");
            longest = bar.len();
            let factor = match cell.as_str() {
                "no change" => 1.0,
                "none" | "x <0.001" => 0.0,
                "x >999" => f64::INFINITY,
                told => told.trim_start_matches("x ").parse::<f64>().map_err(|error| format!("{error}: {row}"))?,
            };
            let way = if bar.contains('-') { -1.0 } else { f64::from(u8::from(bar.contains('+'))) };
            assert_eq!(way, if factor == 1.0 { 0.0 } else { (factor - 1.0_f64).signum() }, "{mesh}: {row}");
        }
    }
    Ok(())
}

/// A lighter inside takes strength from an eye: hoop stress goes up with what is missing.
#[test]
fn infill_weakens_the_eyes() -> Tested {
    let hoop = |report: &Value| report["rod"]["eyes"][0]["hoop_stress_max_mpa"].as_f64().unwrap_or(f64::NAN);
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
        let said = layload(&[&["check", "--quick", "samples/plain_rod.stl", "--job", JOB][..], &options].concat())?;
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
        let said = layload(&["check", "--quick", mesh, "--job", JOB])?;
        let first: Vec<&str> = said.out.lines().take(12).collect();
        assert!(first.join(" ").contains("Not checked"), "{mesh}: {first:?}");
    }
    let report = checked("samples/plain_rod.stl", &[])?;
    // Of a part without such a place only the effects that no check looks at, each with its word among all effects.
    let effects = report["effects"].as_array().ok_or("no effects")?;
    let not: Vec<&Value> = effects.iter().filter(|e| e["state"] == "not-checked").map(|e| &e["effect"]).collect();
    assert!(!not.is_empty());
    assert_eq!(report["verdict"]["unchecked"].as_array().ok_or("no list")?.iter().collect::<Vec<_>>(), not);
    Ok(())
}
