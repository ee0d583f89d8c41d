//! Sharp inner corners: judged at a length of the material, not of the cells.

use layload_core::job::Job;
use layload_core::report::{HotSpotReport, Report};
use layload_core::verdict::FieldRequest;
use layload_core::{CheckRequest, Question, check_with};

use crate::mesh::files;

type Tested = Result<(), Box<dyn std::error::Error>>;

fn asked(mesh: &str, job: &str, cells: usize) -> Result<Report, Box<dyn std::error::Error>> {
    let job = Job::from_toml(std::str::from_utf8(&files::bytes(&format!("samples/{job}.toml"))?)?)?;
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let request = CheckRequest { facets: false, field: Some(FieldRequest { cells }) };
    Ok(check_with(&files::bytes(mesh)?, &question, &request, &mut ())?.report)
}

fn corners(report: &Report) -> Vec<&HotSpotReport> {
    report.field.iter().flat_map(|field| &field.hot_spots).filter(|spot| spot.sharp_corner).collect()
}

/// Counterbores whose floor meets the wall at a right angle, and a piston: the worst corner has a bounded stress below it that
/// cells do not move, and counts.
#[test]
fn the_stress_below_a_corner_is_no_matter_of_cells() -> Tested {
    // Walls of a piston are two or three of its coarse cells thick, which move the stress all round its corners.
    for (mesh, job, cells, tolerance) in [
        ("tests/meshes/counterbored.stl", "bench_single", [12_000, 36_000], 0.1),
        ("tests/meshes/piston.stl", "bench_piston", [20_000, 60_000], 0.25),
    ] {
        let mut worst = Vec::new();
        for cells in cells {
            let report = asked(mesh, job, cells)?;
            let list = corners(&report);
            assert!(!list.is_empty(), "{mesh}");
            for spot in &list {
                assert_eq!(spot.depth_mm, Some(0.1), "{mesh}: {}", spot.place);
                assert!(spot.why.as_ref().is_some_and(|why| why.contains("below this sharp inner corner")));
                assert!(report.verdict.margin <= spot.margin * 1.0001, "{mesh}: {}", spot.place);
            }
            assert!(report.verdict.unchecked.iter().all(|doubt| !doubt.contains("sharp inner corner")));
            worst.push(list.iter().map(|spot| spot.margin).fold(f64::INFINITY, f64::min));
        }
        println!("{mesh}: {worst:.3?}");
        // What the coarse cells smooth of the whole eye's bending is left; at the corner itself three times as many cells
        // would raise the stress by a fifth or more.
        assert!((worst[0] / worst[1] - 1.0).abs() < tolerance, "{mesh}: {worst:?}");
    }
    Ok(())
}
