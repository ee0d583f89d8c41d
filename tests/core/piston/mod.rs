//! A piston from its mesh to its margins.

use std::error::Error;

use layload_core::job::Job;
use layload_core::mesh::{Mended, Mesh, bodies};
use layload_core::part::{GivenPiston, Piston, find_piston};
use layload_core::piston::{PistonAssessment, PistonLoading, PistonModel, PreparedPiston, WarmPiston, assess_piston};
use layload_core::report::{CrownHeatReport, Report};
use layload_core::{LengthUnit, LoadedPart, Question};

use crate::mesh::files;

mod balance;
mod changes;
mod crown_map;
mod facts;
pub(crate) mod field;
mod heat;
mod lost;
mod margins;
mod peaks;
mod physics;

pub(crate) type Tested = Result<(), Box<dyn Error>>;

/// A piston of a file.
pub(crate) fn piston(name: &str) -> Result<Piston, Box<dyn Error>> {
    let (mesh, _) = Mesh::from_stl(&files::bytes(name)?, LengthUnit::Millimetre)?;
    Ok(find_piston(bodies(mesh)?, &GivenPiston::default())?)
}

/// The job of a sample with changes.
pub(crate) fn job(name: &str, change: impl FnOnce(&mut Job)) -> Result<Job, Box<dyn Error>> {
    let mut job = Job::from_toml(&String::from_utf8(files::bytes(name)?)?)?;
    // Fewer cuts than usual: these tests look at what does not depend on their number.
    job.model.stations = Some(60);
    change(&mut job);
    Ok(job)
}

/// Everything worked out for a piston and a job.
pub(crate) struct Worked {
    pub(crate) prepared: PreparedPiston,
    pub(crate) model: PistonModel,
    pub(crate) loading: PistonLoading,
    pub(crate) warm: WarmPiston,
    pub(crate) assessment: PistonAssessment,
}

pub(crate) fn worked(piston: &Piston, job: &Job) -> Result<Worked, Box<dyn Error>> {
    let question = Question { job, card_text: None, pressure_text: None };
    let piston = std::sync::Arc::new(piston.clone());
    let (low, high) = piston.mesh.bounds();
    let (mended, unit) = (Mended::default(), LengthUnit::Metre);
    let file = LoadedPart { mended, unit, size: high - low, part: piston.clone() };
    let prepared = PreparedPiston::new(piston, &file, &question)?;
    let model = prepared.model()?;
    let loading = prepared.loading(&model)?;
    let card = &prepared.scenario.card;
    let warm = WarmPiston::new(&model, &loading, &prepared.scenario, &prepared.given, card, 1.0)?;
    let case = prepared.case(&model, &loading, &warm, 1.0);
    let assessment = assess_piston(&case, card)?;
    Ok(Worked { prepared, model, loading, warm, assessment })
}

/// What one run does to the crown.
pub(crate) fn crown_heat(report: &Report) -> Result<&CrownHeatReport, Box<dyn Error>> {
    Ok(&report.piston.as_ref().ok_or("not a piston")?.crown_heat)
}
