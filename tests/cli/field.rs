//! The stress field, which answers unless a quick look is asked for.

use serde_json::Value;

use crate::Tested;
use crate::run::{JOB, ROD, layload, program, run};

/// So few cells that a test is quick; only names and bytes are looked at.
const FEW: [&str; 2] = ["--cells", "4000"];

#[test]
fn names_that_scripts_rely_on_and_equal_bytes() -> Tested {
    let asked = |threads: &str| {
        let mut command = program();
        command.env("RAYON_NUM_THREADS", threads).args(["check", ROD, "--job", JOB, "--json"]).args(FEW);
        run(&mut command)
    };
    let (one, two) = (asked("1")?, asked("2")?);
    assert_eq!(one.out, two.out, "{}", one.err);
    let report: Value = serde_json::from_str(&one.out)?;
    let field = &report["field"];
    assert!(field["cells"].as_u64().is_some_and(|cells| (2000..8000).contains(&cells)), "{}", field["cells"]);
    let solves = field["solves"].as_array().ok_or("no solves")?;
    for solve in solves {
        assert!(solve["name"].is_string() && solve["iterations"].is_u64());
        assert!(solve["residual"].as_f64().is_some_and(|residual| residual <= 3e-5));
        // Time differs from run to run.
        assert!(solve["seconds"].is_null());
    }
    let spots = field["hot_spots"].as_array().ok_or("no spots")?;
    assert!(!spots.is_empty());
    for spot in spots {
        assert!(spot["place"].is_string() && spot["stress_mpa"].is_f64() && spot["handbook_kt"].is_f64());
        assert_eq!(spot["position_mm"].as_array().map(Vec::len), Some(3));
    }
    // The lesser margin counts.
    let least = spots.iter().filter(|s| s["sharp_corner"] == false).filter_map(|s| s["margin"].as_f64());
    let margin = report["verdict"]["margin"].as_f64().ok_or("no margin")?;
    assert!(least.fold(f64::INFINITY, f64::min) >= margin * 0.999, "{margin}");
    // What the field finds worse than the sections do is named with the field's own place.
    let first = spots.iter().find(|spot| spot["sharp_corner"] == false).ok_or("all sharp")?;
    assert!(first["margin"].as_f64() < first["sections_margin"].as_f64() && first["why"].is_string(), "{first}");
    let modes = report["modes"].as_array().ok_or("no modes")?;
    let named = modes.iter().find(|mode| mode["mode"] == first["mode"]).ok_or("not named")?;
    assert_eq!((&named["place"], &named["margin"]), (&first["place"], &first["margin"]));
    Ok(())
}

#[test]
fn a_quick_look_has_none_and_words_say_so() -> Tested {
    let check = |options: &[&str]| layload(&[&["check", ROD, "--job", JOB], options].concat());
    let plain: Value = serde_json::from_str(&check(&["--quick", "--json"])?.out)?;
    assert!(plain["field"].is_null());
    let timed: Value = serde_json::from_str(&check(&[&FEW[..], &["--timings", "--json"]].concat())?.out)?;
    assert!(timed["field"]["solves"][0]["seconds"].is_f64());
    assert!(check(&[&FEW[..], &["--stations"]].concat())?.out.contains("\nStress field\n"));
    // Both belong to the field, and so few cells are none.
    assert_eq!(check(&["--quick", "--cells", "4000"])?.code, Some(2));
    assert_eq!(check(&["--quick", "--timings"])?.code, Some(2));
    assert_eq!(check(&["--cells", "3"])?.code, Some(2));
    Ok(())
}

#[test]
fn a_split_eye_without_its_cap_is_refused() -> Tested {
    let command = ["check", "tests/meshes/half_bore_no_cap.stl", "--job", JOB];
    // It is the field that cannot be told of such a part.
    assert!(matches!(layload(&[&command[..], &["--quick"]].concat())?.code, Some(1 | 3)));
    let said = layload(&[&command[..], &FEW].concat())?;
    assert_eq!((said.code, said.out.as_str()), (Some(2), ""));
    assert!(said.complains("is split") && said.complains("help:") && said.complains("--quick"), "{}", said.err);
    Ok(())
}
