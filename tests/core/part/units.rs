//! Files in inches or metres: asked about, and read right when told.

use layload_core::job::{Job, MaterialTable, PartTable};
use layload_core::mesh::LengthUnit;
use layload_core::{Error, Question, prepare};

use super::Tested;
use super::truth::{Truth, unit};
use crate::mesh::files;

fn job(unit: Option<LengthUnit>) -> Result<Job, layload_core::job::JobError> {
    let mut job = Job::from_toml(
        "[engine]\nbore_mm = 52.0\nstroke_mm = 46.0\nreciprocating_mass_g = 96.0\n\
         [duty]\nsteps = [{ rpm = 5000.0, throttle = 1.0, seconds = 60.0 }]\n",
    )?;
    job.material = MaterialTable { name: Some("PA12-CF15".into()), ..MaterialTable::default() };
    job.part = PartTable { mesh_unit: unit, ..PartTable::default() };
    Ok(job)
}

#[test]
fn asked_about() -> Tested {
    for (name, expected) in [("inch_rod", "inch"), ("metre_rod", "metre")] {
        let job = job(None)?;
        let question = Question { job: &job, card_text: None, pressure_text: None };
        let error = prepare(&files::test_mesh(name)?, &question, &mut ()).err();
        let Some(Error::LikelyUnit { word, .. }) = &error else { return Err(format!("{name}: {error:?}").into()) };
        assert_eq!(*word, expected);
        let help = error.as_ref().map(Error::help).unwrap_or_default();
        assert!(help.contains(&format!("--mesh-unit {expected}")), "{help}");
    }
    Ok(())
}

#[test]
fn read_right_when_told() -> Tested {
    for name in ["inch_rod", "metre_rod"] {
        let truth = &files::truths()?[format!("tests/meshes/{name}.stl")];
        let job = job(Some(unit(truth)))?;
        let question = Question { job: &job, card_text: None, pressure_text: None };
        let prepared = prepare(&files::test_mesh(name)?, &question, &mut ())?;
        let faults = Truth::of(truth).faults(&prepared.rod);
        assert!(faults.is_empty(), "{name}: {}", faults.join("\n"));
    }
    Ok(())
}

#[test]
fn a_rod_in_millimetres_is_not_asked_about() -> Tested {
    let job = job(None)?;
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let prepared = prepare(&files::test_mesh("solid_header")?, &question, &mut ())?;
    assert_eq!(prepared.unit, LengthUnit::Millimetre);
    Ok(())
}
