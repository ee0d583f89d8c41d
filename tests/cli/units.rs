//! Meshes in inches or metres: asked about, and read right when told.

use super::Tested;
use super::refusal::refused;
use super::run::{JOB, layload, report};

#[test]
fn asked_about() -> Tested {
    for (mesh, unit) in [("inch_rod", "inch"), ("metre_rod", "metre")] {
        let said = layload(&["check", &format!("tests/meshes/{mesh}.stl"), "--job", JOB])?;
        refused(mesh, &said, &[&format!("--mesh-unit {unit}")]);
    }
    Ok(())
}

#[test]
fn read_right_when_told() -> Tested {
    for (mesh, unit) in [("inch_rod", "inch"), ("metre_rod", "metre")] {
        let report = report(&format!("tests/meshes/{mesh}.stl"), &["--mesh-unit", unit])?;
        let distance = report["part"]["center_distance_mm"].as_f64().ok_or("no distance")?;
        // What is asked of recognition.
        assert!((distance - 90.0).abs() < 0.05, "{mesh}: {distance} mm");
        assert_eq!(report["mesh"]["unit"], unit);
    }
    Ok(())
}
