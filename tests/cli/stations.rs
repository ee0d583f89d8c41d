//! Stations of the report lie along the rod in order and fit the mesh.

use serde_json::Value;

use super::Tested;
use super::run::{changed_job, layload, report};

fn column(report: &Value, name: &str) -> Vec<f64> {
    report["stations"]
        .as_array()
        .map(|list| list.iter().map(|s| s[name].as_f64().unwrap_or(f64::NAN)).collect())
        .unwrap_or_default()
}

#[test]
fn from_the_small_end_to_the_big_end() -> Tested {
    for mesh in ["samples/plain_rod.stl", "samples/bearing_rod.stl", "tests/meshes/far_from_origin.stl"] {
        let report = report(mesh, &[])?;
        let positions = column(&report, "position_mm");
        let distance = report["part"]["center_distance_mm"].as_f64().ok_or("no distance")?;
        // The job's 200 cuts go through the whole part, half of them or more between the centres.
        assert!(positions.len() >= 100, "{mesh}: {} stations", positions.len());
        assert!(positions.is_sorted_by(|a, b| a < b), "{mesh}: not in order");
        // Cuts through both centres and nothing beyond them.
        assert!(positions[0] >= 0.0 && positions[0] < 0.05 * distance, "{mesh}: first at {}", positions[0]);
        let last = positions[positions.len() - 1];
        assert!(last <= distance + 1e-9 && last > 0.95 * distance, "{mesh}: last at {last}");
    }
    Ok(())
}

#[test]
fn the_small_end_is_where_the_small_bore_is() -> Tested {
    // At the centre of an eye the bore takes its diameter out of the width: 24 - 13 and 38 - 24 mm, times 14 mm of depth.
    let report = report("samples/plain_rod.stl", &[])?;
    let (positions, areas) = (column(&report, "position_mm"), column(&report, "area_mm2"));
    let at = |place: f64| {
        let nearest =
            (0..positions.len()).min_by(|&a, &b| (positions[a] - place).abs().total_cmp(&(positions[b] - place).abs()));
        nearest.map_or(f64::NAN, |k| areas[k])
    };
    // A cut up to 0.5 mm from the centre, and the sagitta of the bore.
    assert!((at(0.0) / (11.0 * 14.0) - 1.0).abs() < 0.02, "{}", at(0.0));
    assert!((at(90.0) / (14.0 * 14.0) - 1.0).abs() < 0.02, "{}", at(90.0));
    Ok(())
}

#[test]
fn numbers_are_possible() -> Tested {
    let report = report("samples/i_shank_rod.stl", &[])?;
    let (areas, solid) = (column(&report, "area_mm2"), column(&report, "solid_area_mm2"));
    assert!(areas.iter().all(|&area| area > 0.0 && area < 38.0 * 14.0));
    assert!(areas.iter().zip(&solid).all(|(area, solid)| (0.0..=area * (1.0 + 1e-9)).contains(solid)));
    let (least, greatest) = (column(&report, "second_moment_min_mm4"), column(&report, "second_moment_max_mm4"));
    assert!(least.iter().zip(&greatest).all(|(a, b)| 0.0 < *a && a <= b));
    let (low, high) = (column(&report, "axial_force_min_n"), column(&report, "axial_force_max_n"));
    assert!(low.iter().zip(&high).all(|(a, b)| a <= b));
    let (low, high) = (column(&report, "stress_min_mpa"), column(&report, "stress_max_mpa"));
    assert!(low.iter().zip(&high).all(|(a, b)| a <= b));
    Ok(())
}

#[test]
fn more_when_the_job_asks_for_more() -> Tested {
    let mut counts = Vec::new();
    for count in [20, 60, 500] {
        let path = changed_job(
            &format!("stations_{count}.toml"),
            "[material]",
            &format!("[model]\nstations = {count}\n[material]"),
        )?;
        let said = layload(&["check", "--quick", super::run::ROD, "--job", &path, "--json"])?;
        let found = column(&serde_json::from_str(&said.out)?, "position_mm").len();
        // Some of the cuts lie beyond the centres; both centres may be added.
        assert!((count / 2..=count + 2).contains(&found), "{found} stations of {count} cuts");
        counts.push(found);
    }
    assert!(counts.is_sorted_by(|a, b| a < b), "{counts:?}");
    Ok(())
}
