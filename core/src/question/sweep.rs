//! From a mesh and a job to life against speed.

use super::load::PartSource;
use crate::Error;
use crate::kind::{Question, SpeedRange, Stage, Watcher, stage};
use crate::report::{CAUTIONS, SCHEMA_VERSION, SweepReport};

/// Life, temperature and governing mode at many top speeds of the duty; all its steps keep their share of the top speed.
pub fn sweep<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    range: &SpeedRange,
    watcher: &mut dyn Watcher,
) -> Result<SweepReport, Error> {
    let loaded = source.into().part(question.job, watcher)?;
    let prepared = loaded.part.clone().prepare(&loaded, question)?;
    stage(watcher, Stage::Cutting)?;
    let driven = prepared.load()?;
    stage(watcher, Stage::Assessing)?;
    let points = driven.warm()?.swept(range)?;
    let scenario = prepared.scenario();
    Ok(SweepReport {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        title: question.job.title.clone(),
        duty_rpm: scenario.duty.highest_rpm(),
        wanted_life_s: scenario.wanted_life,
        sweep: points,
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    })
}
