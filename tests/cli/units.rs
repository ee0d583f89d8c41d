//! Meshes in centimetres, inches or metres: asked about, and read right when told.

use super::Tested;
use super::refusal::refused;
use super::run::{JOB, layload, report};

#[test]
fn asked_about() -> Tested {
    // A rod 122 mm long in inches is 48 mm long in centimetres: both are named, with the length.
    let inch = ["centimetres (48.0 mm)", "inches (121.8 mm)", "--mesh-unit centimetre or --mesh-unit inch"];
    for (mesh, said) in [("inch_rod", inch.as_slice()), ("metre_rod", &["--mesh-unit metre"])] {
        refused(mesh, &layload(&["check", &format!("tests/meshes/{mesh}.stl"), "--job", JOB])?, said);
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
