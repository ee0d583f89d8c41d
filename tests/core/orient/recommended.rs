//! The recommended pose: one of the best compromises, it stays on the bed, and its reason is true.

use approx::assert_relative_eq;
use layload_core::job::Job;
use layload_core::orient::{Shape, Standing};
use layload_core::report::{DirectionReport, DirectionsReport};
use layload_core::verdict::FieldRequest;
use layload_core::{Question, directions, quick_look};
use nalgebra::Vector3;

use super::Tested;
use crate::copies::{poses, stl_of};
use crate::mesh::files::bytes;
use crate::mesh::shapes::{Region, Solid};

const LAYER: f64 = 0.2e-3;

fn job(pose: &str) -> Result<Job, Box<dyn std::error::Error>> {
    let text = String::from_utf8(bytes("samples/bench_single.toml")?)?;
    Ok(Job::from_toml(&text.replace("\"flat\"", pose))?)
}

fn asked(stl: &[u8]) -> Result<DirectionsReport, Box<dyn std::error::Error>> {
    asked_by(stl, None)
}

fn asked_by(stl: &[u8], field: Option<FieldRequest>) -> Result<DirectionsReport, Box<dyn std::error::Error>> {
    let job = job("\"flat\"")?;
    Ok(directions(stl, &Question { job: &job, card_text: None, pressure_text: None }, 40, field, &mut ())?)
}

/// Every rod that is read without options.
const RODS: [&str; 12] = [
    "samples/plain_rod.stl",
    "samples/i_shank_rod.stl",
    "samples/thin_web_rod.stl",
    "samples/bearing_rod.stl",
    "samples/split_rod.stl",
    "tests/meshes/counterbored.stl",
    "tests/meshes/half_bore_with_cap.stl",
    "tests/meshes/oil_hole_rod.stl",
    "tests/meshes/overlapping_shells.stl",
    "tests/meshes/slotted_small_end.stl",
    "tests/meshes/study_eyes.stl",
    "tests/meshes/unequal_depths.stl",
];

fn named(report: &DirectionsReport) -> [&DirectionReport; 3] {
    [&report.named.flat, &report.named.on_edge, &report.named.upright]
}

/// The recommended pose is one of those listed as best compromises, with the same numbers; whatever is left out says why.
fn hangs_together(name: &str, report: &DirectionsReport) {
    let best = &report.recommended.direction;
    let compromises: Vec<&DirectionReport> = report.directions.iter().filter(|d| d.pareto).collect();
    assert!(compromises.contains(&best), "{name}: {best:?}");
    for other in &compromises {
        assert!(other.checked, "{name}: {other:?}");
        // No worse in anything and better in one would be a better compromise.
        let better = other.margin > best.margin * 1.01
            && other.print_time_s < best.print_time_s * 0.99
            && other.support_area_mm2 < best.support_area_mm2 - 1.0
            && other.stair_step_mm < best.stair_step_mm - 0.01;
        assert!(!better, "{name}: {other:?}");
    }
    let stands_strong = report
        .directions
        .iter()
        .any(|d| d.stands && d.checked && d.margin > 0.95 * best.margin.max(named(report)[0].margin));
    assert!(best.stands || !stands_strong, "{name}: {best:?}");
    for pose in named(report) {
        let own = Vector3::<f64>::from(pose.build_direction);
        let same = own.cross(&Vector3::from(best.build_direction)).norm() < 1e-9;
        assert!(pose.checked && (same || pose.not_recommended.is_some()), "{name}: {pose:?}");
        if !pose.stands && !same {
            assert!(pose.not_recommended.as_ref().is_some_and(|why| why.contains("mm²")), "{name}: {pose:?}");
        }
    }
    let claims_strongest = report.recommended.reason.contains("greatest margin of the best compromises");
    let strongest = compromises.iter().all(|d| d.margin <= best.margin * 1.001);
    assert!(strongest || !claims_strongest, "{name}: {}", report.recommended.reason);
}

#[test]
fn it_is_one_of_the_best_compromises() -> Tested {
    for name in RODS {
        hangs_together(name, &asked(&bytes(name)?)?);
    }
    Ok(())
}

/// By the field too: numbers of sections are not set against its own.
#[test]
fn by_the_field_it_is_one_of_the_best_compromises_that_were_solved() -> Tested {
    for name in ["tests/meshes/slotted_small_end.stl", "tests/meshes/unequal_depths.stl"] {
        let report = asked_by(&bytes(name)?, Some(FieldRequest { cells: 2_000 }))?;
        hangs_together(name, &report);
        assert!(report.directions.iter().filter(|d| d.pareto).all(|d| d.solved), "{name}");
        assert!(named(&report).iter().all(|pose| pose.solved), "{name}");
    }
    Ok(())
}

/// Fifty copies of rods with few facets, turned and moved: the same pose of the part, with the same numbers.
#[test]
fn turned_copies_get_the_same_recommendation() -> Tested {
    for name in
        ["tests/meshes/counterbored.stl", "tests/meshes/unequal_depths.stl", "tests/meshes/half_bore_with_cap.stl"]
    {
        let solid = Solid::of_stl(&bytes(name)?)?;
        let here = asked(&stl_of(&solid))?;
        for pose in poses(18, 50, 40.0) {
            let there = asked(&stl_of(&solid.clone().moved(&pose)))?;
            hangs_together(name, &there);
            let (a, b) = (&here.recommended.direction, &there.recommended.direction);
            // Of a part with two like sides either may come first, so angles to its axes are compared.
            let angles = |d: &DirectionReport| [d.angle_to_axis_deg, d.bore_angles_deg[0], d.bore_angles_deg[1]];
            for (here, there) in angles(a).into_iter().zip(angles(b)) {
                assert!((here - there).abs() < 0.1 || (here + there - 180.0).abs() < 0.1, "{name}: {a:?} {b:?}");
            }
            // Corners are written in single precision.
            assert_relative_eq!(a.margin, b.margin, max_relative = 1e-4);
            assert_eq!(a.stands, b.stands, "{name}");
        }
    }
    Ok(())
}

/// What is listed as checked is what a check of that direction answers, to the last digit.
#[test]
fn margins_are_those_of_a_check() -> Tested {
    for name in ["samples/plain_rod.stl", "samples/i_shank_rod.stl", "tests/meshes/unequal_depths.stl"] {
        let turned = Solid::of_stl(&bytes(name)?)?.moved(&poses(3, 1, 20.0)[0]);
        let stl = stl_of(&turned);
        let report = asked(&stl)?;
        for direction in report.directions.iter().filter(|d| d.checked) {
            let [x, y, z] = direction.build_direction;
            let job = job(&format!("[{x:?}, {y:?}, {z:?}]"))?;
            let question = Question { job: &job, card_text: None, pressure_text: None };
            let checked = quick_look(&stl, &question, &mut ())?;
            assert_eq!(checked.verdict.margin.to_bits(), direction.margin.to_bits(), "{name}: {direction:?}");
            assert_eq!(checked.verdict.governing_mode, direction.governing_mode, "{name}");
        }
    }
    Ok(())
}

/// A bar that lies flat stays there; leaned by nine degrees it stands on an edge.
#[test]
fn a_lean_is_no_pose() -> Tested {
    let shape = Shape::new(&Solid::block([0.100, 0.020, 0.010]).mesh()?);
    let posed = |build: Vector3<f64>| shape.posed(&build, core::f64::consts::FRAC_PI_4, LAYER);
    assert_eq!(posed(Vector3::z()).standing(), Standing::Stands);
    let lean = 9.0_f64.to_radians();
    for build in
        [Vector3::new(libm::sin(lean), 0.0, libm::cos(lean)), Vector3::new(0.0, libm::sin(lean), libm::cos(lean))]
    {
        let leaned = posed(build);
        assert_ne!(leaned.standing(), Standing::Stands, "{leaned:?}");
    }
    // On its end, 100 mm high on 10 mm: the lean that tips it is atan(5 / 50).
    let upright = posed(Vector3::x());
    let Standing::Unsteady { tilt } = upright.standing() else { return Err(format!("{upright:?}").into()) };
    assert_relative_eq!(tilt, libm::atan(0.1), max_relative = 1e-9);
    Ok(())
}

/// The footing is what the first layer covers: of a cylinder that lies, a strip of 2 sqrt(2 r h) within its corners.
#[test]
fn a_cylinder_lies_on_a_strip() -> Tested {
    let radius = 0.010;
    let bar = Solid::prism(&Region::ellipse(radius, radius, 720), 0.0, 0.050).mesh()?;
    let posed = Shape::new(&bar).posed(&Vector3::z(), core::f64::consts::FRAC_PI_4, LAYER);
    let strip = 2.0 * (2.0 * radius * LAYER - LAYER * LAYER).sqrt();
    // A corner of the polygon is lowest, its sides are half a degree long: less than a hundredth of the strip.
    assert_relative_eq!(posed.contact_area, strip * 0.050, max_relative = 0.01);
    Ok(())
}

/// A block put down anyhow comes to rest on one of its faces.
#[test]
fn parts_come_to_rest_on_faces() -> Tested {
    let turn = poses(9, 1, 0.1)[0];
    let block = Shape::new(&Solid::block([0.030, 0.020, 0.010]).moved(&turn).mesh()?);
    let resting = block.resting();
    assert!(resting.len() >= 2 && resting.len() <= 6, "{resting:?}");
    for up in resting {
        let own = turn.rotation.inverse() * up;
        assert!((own.amax() - 1.0).abs() < 1e-9, "{own:?}");
    }
    Ok(())
}
