//! From a mesh and a job to a verdict.

use super::load::PartSource;
use crate::Error;
use crate::kind::{Answers, CheckRequest, Checked, LoadedPart, Question, Stage, Warm, Watcher, facet_values, stage};
use crate::numeric::both;
use crate::report::Report;

/// Checks a part, whatever the mesh is, by its stress field.
///
/// # Errors
///
/// Where the mesh is no closed part of a known kind, the job is incomplete or does not belong to it, or the watcher stops the
/// work.
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::{Question, check};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// # let question = Question { job: &job, card_text: None, pressure_text: None };
/// let report = check(&stl, &question, &mut ())?;
/// assert_eq!(report.verdict.holds, Some(report.verdict.margin >= 1.0));
/// # Ok(())
/// # }
/// ```
pub fn check<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    watcher: &mut dyn Watcher,
) -> Result<Report, Error> {
    check_with(source, question, &CheckRequest::default(), watcher).map(|checked| checked.report)
}

/// Looks at the sections of a part alone: at once, but without its fillets, pockets and blends. It may find that the part
/// fails, and never says that it holds.
///
/// # Errors
///
/// As [`check`].
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::{Question, State, quick_look};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// # let question = Question { job: &job, card_text: None, pressure_text: None };
/// let report = quick_look(&stl, &question, &mut ())?;
/// assert!(matches!(report.verdict.state, State::NoFaultFound | State::Fails));
/// # Ok(())
/// # }
/// ```
pub fn quick_look<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    watcher: &mut dyn Watcher,
) -> Result<Report, Error> {
    check_with(source, question, &CheckRequest::QUICK, watcher).map(|checked| checked.report)
}

/// Checks a part, with more than the report.
///
/// # Errors
///
/// Where the mesh is no closed part of a known kind, the job is incomplete or does not belong to it, or the watcher stops the
/// work. Facets of a kind of part that sections do not paint need the field.
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::{CheckRequest, Question, check_with};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// # let question = Question { job: &job, card_text: None, pressure_text: None };
/// let request = CheckRequest { facets: true, field: None };
/// let checked = check_with(&stl, &question, &request, &mut ())?;
/// let painted = checked.facets.ok_or("a rod is painted by its sections")?;
/// assert_eq!(painted.values.len(), painted.facets.len());
/// # Ok(())
/// # }
/// ```
pub fn check_with<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    request: &CheckRequest,
    watcher: &mut dyn Watcher,
) -> Result<Checked, Error> {
    let loaded = source.into().part(question.job, watcher)?;
    answered(&loaded, question, request, watcher, |_, _| ()).map(|(checked, ())| checked)
}

/// The answer, and whatever else is wanted of the part at its duty.
pub(crate) fn answered<T>(
    loaded: &LoadedPart,
    question: &Question<'_>,
    request: &CheckRequest,
    watcher: &mut dyn Watcher,
    more: impl FnOnce(&dyn Warm, &Report) -> T,
) -> Result<(Checked, T), Error> {
    let prepared = loaded.part.clone().prepare(loaded, question)?;
    if request.facets && request.field.is_none() && !loaded.part.painted_by_sections() {
        return Err(Error::PaintedByField);
    }
    stage(watcher, Stage::Cutting)?;
    let mut driven = prepared.load()?;
    stage(watcher, Stage::Assessing)?;
    if let Some(wanted) = request.field {
        driven.solve_field(wanted, request.facets, watcher)?;
    }
    let warm = driven.warm()?;
    let assessed = warm.assess()?;
    stage(watcher, Stage::Speed)?;
    stage(watcher, Stage::Changes)?;
    let ((limit, changes), uncertainty) =
        both(|| both(|| assessed.highest_speed(), || assessed.changes()), || assessed.uncertainty());
    let title = question.job.title.clone();
    let report = assessed.report(Answers { title, limit: limit?, uncertainty, changes })?;
    let painted = if request.facets { assessed.facets() } else { None };
    let facets = painted.map(|values| facet_values(loaded.part.mesh(), loaded.part.frame(), values));
    let more = more(&*warm, &report);
    Ok((Checked { report, facets }, more))
}
