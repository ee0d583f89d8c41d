use layload_core::report::{ChangeReport, CompareReport};
use layload_core::{PartSource, Revision, compare};

use super::{PLAIN, job, question, stretched};

fn of<'a>(report: &'a CompareReport, name: &str) -> &'a ChangeReport {
    report.changes.iter().find(|change| change.name == name).unwrap_or_else(|| panic!("no {name}"))
}

#[test]
fn the_same_part_twice_has_changed_in_nothing() {
    let job = job();
    let revision = Revision { source: PartSource::Stl(PLAIN), question: question(&job) };
    let report = compare(&revision, &revision, None, &mut ()).unwrap();
    assert!(report.changes.len() > 30);
    assert!(report.changes.iter().all(|change| change.old == change.new));
    assert!(report.inputs.is_empty());
    assert!(report.path.iter().all(|point| point.old_area_mm2 == point.new_area_mm2));
}

/// Mass, area and the second moment that goes with it grow as the width does, whatever the profile: closed form.
#[test]
fn a_thicker_rod_is_told_as_such() {
    let job = job();
    let wide = stretched(PLAIN, 1.25);
    let old = Revision { source: PartSource::Stl(PLAIN), question: question(&job) };
    let new = Revision { source: PartSource::Stl(&wide), question: question(&job) };
    let report = compare(&old, &new, None, &mut ()).unwrap();
    // Corners are rounded to single precision in the file.
    for name in ["mass as printed", "volume", "least area along the path"] {
        let factor = of(&report, name).factor.unwrap();
        assert!((factor - 1.25).abs() < 1e-4, "{name} {factor}");
    }
    for name in ["distance between bores", "small-end bore", "big-end bore", "small-end wall"] {
        let factor = of(&report, name).factor.unwrap();
        assert!((factor - 1.0).abs() < 1e-4, "{name} {factor}");
    }
    for point in &report.path {
        assert!((point.new_area_mm2 / point.old_area_mm2 - 1.25).abs() < 1e-3, "{point:?}");
    }
    assert!(of(&report, "margin on stress").factor.unwrap() > 1.0);
    // The gas push stays and the area grows by a quarter; the heavier rod's own inertia relieves the push by some per cent.
    let stress = of(&report, "greatest stress along the path").factor.unwrap();
    assert!((0.76..=0.8).contains(&stress), "{stress}");
}

#[test]
fn a_change_of_the_job_is_listed_and_geometry_is_not() {
    let old_job = job();
    let mut new_job = job();
    new_job.engine.reciprocating_mass_g = Some(30.0);
    new_job.material.name = Some("PEEK".into());
    let old = Revision { source: PartSource::Stl(PLAIN), question: question(&old_job) };
    let new = Revision { source: PartSource::Stl(PLAIN), question: question(&new_job) };
    let report = compare(&old, &new, None, &mut ()).unwrap();
    for name in ["reciprocating mass", "material"] {
        assert!(report.inputs.iter().any(|input| input.name == name), "{name}");
    }
    assert!(report.inputs.iter().all(|input| input.name != "stroke"));
    assert_eq!(of(&report, "volume").factor, Some(1.0));
    assert!(of(&report, "greatest pull of the piston pin").factor.unwrap() < 1.0);
}

#[test]
fn a_rod_and_a_piston_are_not_compared() {
    let job = job();
    let piston: &[u8] = include_bytes!("../../../samples/flat_crown_piston.stl");
    let piston_job = layload_core::job::Job::from_toml(include_str!("../../../samples/bench_piston.toml")).unwrap();
    let old = Revision { source: PartSource::Stl(PLAIN), question: question(&job) };
    let new = Revision { source: PartSource::Stl(piston), question: question(&piston_job) };
    let refused = compare(&old, &new, None, &mut ()).unwrap_err();
    assert_eq!(refused, layload_core::Error::DifferentParts);
}
