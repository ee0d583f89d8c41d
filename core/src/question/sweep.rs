//! From a mesh and a job to life against speed.

use super::load::PartSource;
use crate::Error;
use crate::kind::report::warnings;
use crate::kind::{Question, SpeedRange, Stage, Watcher, stage};
use crate::report::{CAUTIONS, SCHEMA_VERSION, SweepReport};

/// Life, temperature and governing mode at many top speeds of the duty; all its steps keep their share of the top speed.
///
/// # Errors
///
/// Where the mesh is no closed part of a known kind, the job is incomplete or does not belong to it, or the watcher stops the
/// work.
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::{Question, SpeedRange, sweep};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// # let question = Question { job: &job, card_text: None, pressure_text: None };
/// let swept = sweep(&stl, &question, &SpeedRange::new(2000.0, 6000.0, 5)?, &mut ())?;
/// assert_eq!(swept.sweep.iter().map(|point| point.rpm).collect::<Vec<_>>(), [2000.0, 3000.0, 4000.0, 5000.0, 6000.0]);
/// # Ok(())
/// # }
/// ```
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
        warnings: warnings(scenario),
        sweep: points,
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    })
}
