//! From a mesh and a job to a verdict.

use super::load::PartSource;
use crate::Error;
use crate::kind::{Answers, CheckRequest, Checked, LoadedPart, Question, Stage, Warm, Watcher, facet_values, stage};
use crate::numeric::both;
use crate::report::Report;

/// Checks a part, whatever the mesh is.
pub fn check<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    watcher: &mut dyn Watcher,
) -> Result<Report, Error> {
    check_with(source, question, &CheckRequest::default(), watcher).map(|checked| checked.report)
}

/// Checks a part, with more than the report.
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
