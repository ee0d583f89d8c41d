//! Life against speed: table, JSON and drawing.

use std::fs;

use serde_json::Value;

use super::Tested;
use super::run::{Said, file, layload};
use layload::plot::{Axis, Chart, Level, Line, Panel, Point, chart_svg};

const MESH: &str = "samples/plain_rod.stl";
const JOB: &str = "samples/bench_single.toml";

fn swept(more: &[&str]) -> std::io::Result<Said> {
    layload(&[&["sweep", "--quick", MESH, "--job", JOB], more].concat())
}

#[test]
fn names_that_scripts_rely_on() -> Tested {
    let said = swept(&["--from", "3000", "--to", "7000", "--count", "5", "--json"])?;
    assert_eq!(said.code, Some(0));
    let report: Value = serde_json::from_str(&said.out)?;
    let points = report["sweep"].as_array().ok_or("no sweep")?;
    assert_eq!(points.len(), 5);
    for (point, rpm) in points.iter().zip([3000.0, 4000.0, 5000.0, 6000.0, 7000.0]) {
        assert_eq!(point["rpm"].as_f64(), Some(rpm));
        for number in ["life_b10_s", "life_b50_s", "peak_temperature_c"] {
            assert!(point[number].is_number(), "{number}");
        }
        assert!(point["governing_mode"].is_string());
        assert!(point["life_b10_s"].as_f64() < point["life_b50_s"].as_f64());
    }
    // The job's own speed gets the answer of a check.
    let check: Value = serde_json::from_str(&layload(&["check", "--quick", MESH, "--job", JOB, "--json"])?.out)?;
    for (swept, checked) in [("life_b10_s", "b10_s"), ("life_b50_s", "b50_s")] {
        let (swept, checked) = (points[2][swept].as_f64(), check["life"][checked].as_f64());
        let (swept, checked) = (swept.ok_or("no life")?, checked.ok_or("no life")?);
        // One and the same path, but for the last digits of the speed's factor.
        assert!((swept / checked - 1.0).abs() < 1e-9, "{swept} {checked}");
    }
    assert_eq!(points[2]["governing_mode"], check["verdict"]["governing_mode"]);
    Ok(())
}

#[test]
fn the_table_is_no_wider_than_the_terminal() -> Tested {
    for line in swept(&["--from", "500", "--to", "40000"])?.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    Ok(())
}

#[test]
fn ranges_that_make_no_sense_are_refused() -> Tested {
    for range in [["0", "5000"], ["-1", "5000"], ["5000", "5000"], ["5000", "3000"], ["1000", "1e9"], ["nan", "3000"]] {
        let said = swept(&["--from", range[0], "--to", range[1]])?;
        assert_eq!((said.code, said.out.as_str()), (Some(2), ""), "{range:?}");
        assert!(said.complains("range of speeds"), "{}", said.err);
    }
    let said = swept(&["--from", "1000", "--to", "2000", "--count", "1"])?;
    assert_eq!(said.code, Some(2));
    assert!(said.complains("2 to 1000 speeds"), "{}", said.err);
    Ok(())
}

#[test]
fn the_drawing_is_whole_and_not_overwritten() -> Tested {
    let path = file("life_against_speed.svg", b"")?;
    fs::remove_file(&path)?;
    let range = ["--from", "3000", "--to", "7000", "--count", "5", "--svg", &path];
    assert_eq!(swept(&range)?.code, Some(0));
    let first = fs::read(&path)?;
    let text = String::from_utf8(first.clone())?;
    for part in ["<title>Bench single", "<desc>", "wanted 2.00 h", "fatigue, beads crack", "life, h", "</svg>"] {
        assert!(text.contains(part), "{part}");
    }
    let said = swept(&range)?;
    assert_eq!(said.code, Some(2));
    assert!(said.complains("life_against_speed.svg"), "{}", said.err);
    assert_eq!(swept(&[&range[..], &["--overwrite"]].concat())?.code, Some(0));
    assert_eq!(fs::read(&path)?, first);
    Ok(())
}

#[test]
fn a_chart_puts_values_where_its_axes_say() -> Tested {
    let chart = Chart {
        title: "a < b".into(),
        told: "two points".into(),
        across: Axis::even("x", 0.0, 10.0),
        panels: vec![Panel {
            up: Axis::powers("y", 1.0, 100.0),
            lines: vec![Line {
                label: "l".into(),
                points: vec![(0.0, Some(1.0)), (5.0, None), (10.0, Some(1e9))],
                dashed: false,
            }],
            bands: Vec::new(),
            levels: vec![Level { value: 1e6, label: "beyond".into() }],
            points: vec![Point { place: (5.0, 10.0), label: "7".into() }],
        }],
        spans: Vec::new(),
        mark: None,
        notes: vec!["below".into()],
    };
    let text = String::from_utf8(chart_svg(&chart)?)?;
    // Bottom left and, held at the edge, top right; the missing point breaks the line.
    assert!(text.contains("M76.0 290.0M736.0 60.0"), "{text}");
    assert!(text.contains("a &lt; b") && !text.contains("beyond"), "{text}");
    for label in [">1<", ">10<", ">100<", ">7<", ">below<", "cx=\"406.0\" cy=\"175.0\""] {
        assert!(text.contains(label), "{label}");
    }
    Ok(())
}
