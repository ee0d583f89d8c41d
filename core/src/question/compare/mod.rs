//! From two meshes, or two jobs, to what changed between them.

mod changes;

use self::changes::compared;
use crate::Error;
use crate::kind::{CheckRequest, Question, Watcher};
use crate::question::check::check_with;
use crate::question::load::PartSource;
use crate::report::{CompareReport, Report};
use crate::verdict::FieldRequest;

/// One of two revisions: where its part comes from, and the job it is asked for.
#[derive(Debug, Clone, Copy)]
pub struct Revision<'a> {
    /// The part.
    pub source: PartSource<'a>,
    /// Its job.
    pub question: Question<'a>,
}

impl Revision<'_> {
    fn checked(&self, field: Option<FieldRequest>, watcher: &mut dyn Watcher) -> Result<Report, Error> {
        let request = CheckRequest { facets: false, field };
        Ok(check_with(self.source, &self.question, &request, watcher)?.report)
    }
}

/// Checks two revisions of one kind of part, both by the stress field or both by sections alone, and says what changed in geometry, loads, heat, life and speed.
///
/// # Errors
///
/// Where the mesh is no closed part of a known kind, the job is incomplete or does not belong to it, or the watcher stops the
/// work. Two kinds of part are not compared.
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::{Question, Revision, compare};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// # let question = Question { job: &job, card_text: None, pressure_text: None };
/// let old = Revision { source: (&stl).into(), question };
/// let mut lighter = job.clone();
/// lighter.engine.reciprocating_mass_g = Some(36.0);
/// let new = Revision { source: (&stl).into(), question: Question { job: &lighter, ..question } };
/// let compared = compare(&old, &new, None, &mut ())?;
/// let margin = compared.changes.iter().find(|change| change.name == "margin on stress").ok_or("no margin")?;
/// assert!(margin.new > margin.old);
/// # Ok(())
/// # }
/// ```
pub fn compare(
    old: &Revision<'_>,
    new: &Revision<'_>,
    field: Option<FieldRequest>,
    watcher: &mut dyn Watcher,
) -> Result<CompareReport, Error> {
    let (old, new) = (old.checked(field, watcher)?, new.checked(field, watcher)?);
    if old.part.kind != new.part.kind {
        return Err(Error::DifferentParts);
    }
    Ok(compared(&old, &new))
}
