//! From a mesh and a job to life against speed.

use super::check::answered;
use super::load::PartSource;
use crate::Error;
use crate::kind::report::warnings;
use crate::kind::{CheckRequest, Checked, Question, SpeedRange, Stage, Watcher, stage};
use crate::report::{CAUTIONS, Report, SCHEMA_VERSION, SweepPoint, SweepReport};
use crate::verdict::FieldRequest;

/// Life, temperature and governing mode at many top speeds of the duty; all its steps keep their share of the top speed.
///
/// The stress field is solved once, at the duty of the job, and the stress of the sections raised to it; at the job's own
/// speed the answer is that of a check. Without a field it is that of sections alone.
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
/// let swept = sweep(&stl, &question, &SpeedRange::new(2000.0, 6000.0, 5)?, None, &mut ())?;
/// assert_eq!(swept.sweep.iter().map(|point| point.rpm).collect::<Vec<_>>(), [2000.0, 3000.0, 4000.0, 5000.0, 6000.0]);
/// # Ok(())
/// # }
/// ```
pub fn sweep<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    range: &SpeedRange,
    field: Option<FieldRequest>,
    watcher: &mut dyn Watcher,
) -> Result<SweepReport, Error> {
    let loaded = source.into().part(question.job, watcher)?;
    let prepared = loaded.part.clone().prepare(&loaded, question)?;
    stage(watcher, Stage::Cutting)?;
    let mut driven = prepared.load()?;
    stage(watcher, Stage::Assessing)?;
    if let Some(wanted) = field {
        driven.solve_field(wanted, false, watcher)?;
    }
    stage(watcher, Stage::Speed)?;
    let points = driven.warm()?.swept(range)?;
    let scenario = prepared.scenario();
    Ok(SweepReport {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        title: question.job.title.clone(),
        solved: field.is_some(),
        duty_rpm: scenario.duty.highest_rpm(),
        wanted_life_s: scenario.wanted_life,
        warnings: warnings(scenario),
        sweep: points,
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    })
}

/// A check and a sweep of the same part and job, with one solution of the stress field for both.
///
/// # Errors
///
/// As [`check_with`](super::check_with) and [`sweep`].
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::{CheckRequest, Question, SpeedRange, check_and_sweep};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// # let question = Question { job: &job, card_text: None, pressure_text: None };
/// let range = SpeedRange::new(4000.0, 6000.0, 3)?;
/// let (checked, swept) = check_and_sweep(&stl, &question, &CheckRequest::QUICK, &range, &mut ())?;
/// assert_eq!(swept.duty_rpm, checked.report.verdict.duty_rpm);
/// # Ok(())
/// # }
/// ```
pub fn check_and_sweep<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    request: &CheckRequest,
    range: &SpeedRange,
    watcher: &mut dyn Watcher,
) -> Result<(Checked, SweepReport), Error> {
    let loaded = source.into().part(question.job, watcher)?;
    let (checked, points) = answered(&loaded, question, request, watcher, |warm, _| warm.swept(range))?;
    let report = of_report(&checked.report, points?);
    Ok((checked, report))
}

/// Speeds of a part that was checked.
pub(super) fn of_report(report: &Report, sweep: Vec<SweepPoint>) -> SweepReport {
    SweepReport {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        title: report.title.clone(),
        solved: report.field.is_some(),
        duty_rpm: report.verdict.duty_rpm,
        wanted_life_s: report.verdict.wanted_life_s,
        warnings: report.warnings.clone(),
        sweep,
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    }
}
