//! Which way up to print a piston: the named poses either way up, and those on a face.

use layload_core::job::{BuildDirection, Job};
use layload_core::report::DirectionsReport;
use layload_core::verdict::FieldRequest;
use layload_core::{CheckRequest, Question, check_with, directions, quick_look};

use super::Tested;
use crate::mesh::files::bytes;

const PISTON: &str = "samples/flat_crown_piston.stl";

fn job() -> Result<Job, Box<dyn std::error::Error>> {
    Ok(Job::from_toml(&String::from_utf8(bytes("samples/bench_piston.toml")?)?)?)
}

fn asked(job: &Job, field: Option<FieldRequest>) -> Result<DirectionsReport, Box<dyn std::error::Error>> {
    let question = Question { job, card_text: None, pressure_text: None };
    Ok(directions(&bytes(PISTON)?, &question, 1000, field, &mut ())?)
}

/// Each listed direction has the margin of a check of a job printed so.
#[test]
fn a_direction_has_the_margin_of_a_check() -> Tested {
    let job = job()?;
    let report = asked(&job, None)?;
    assert!(report.directions.len() < 60, "{} directions", report.directions.len());
    assert!(report.recommended.direction.stands, "{}", report.recommended.reason);
    assert!(!report.recommended.reason.contains("rod"), "{}", report.recommended.reason);
    for told in report.directions.iter().filter(|told| told.checked) {
        let mut printed = job.clone();
        printed.print.build_direction = Some(BuildDirection::Vector(told.build_direction));
        let question = Question { job: &printed, card_text: None, pressure_text: None };
        let checked = quick_look(&bytes(PISTON)?, &question, &mut ())?;
        // Directions go through the file's coordinates and back.
        assert!(
            (checked.verdict.margin / told.margin - 1.0).abs() < 1e-9,
            "{:?}: {} {}",
            told.build_direction,
            checked.verdict.margin,
            told.margin
        );
    }
    Ok(())
}

/// Upright and lying differ, as the layers of the bosses are pulled apart or not, and the field has its say.
#[test]
fn the_field_decides_between_the_named_ones() -> Tested {
    let job = job()?;
    let field = FieldRequest { cells: 5_000 };
    let report = asked(&job, Some(field))?;
    let [flat, upright] = [&report.named.flat, &report.named.upright];
    assert!(flat.solved && upright.solved && report.recommended.direction.solved);
    assert!((flat.margin / upright.margin - 1.0).abs() > 0.05, "{} {}", flat.margin, upright.margin);
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let request = CheckRequest { facets: false, field: Some(field) };
    let checked = check_with(&bytes(PISTON)?, &question, &request, &mut ())?.report;
    // The job prints it upright.
    assert_eq!(checked.verdict.margin, upright.margin);
    Ok(())
}
