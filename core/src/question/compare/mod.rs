//! From two meshes, or two jobs, to what changed between them.

mod changes;

use self::changes::compared;
use crate::Error;
use crate::kind::{Question, Watcher};
use crate::question::check::check;
use crate::question::load::PartSource;
use crate::report::{CompareReport, Report};

/// One of two revisions: where its part comes from, and the job it is asked for.
#[derive(Debug, Clone, Copy)]
pub struct Revision<'a> {
    /// The part.
    pub source: PartSource<'a>,
    /// Its job.
    pub question: Question<'a>,
}

impl Revision<'_> {
    fn checked(&self, watcher: &mut dyn Watcher) -> Result<Report, Error> {
        check(self.source, &self.question, watcher)
    }
}

/// Checks two revisions of one kind of part and says what changed in geometry, loads, heat, life and speed.
pub fn compare(old: &Revision<'_>, new: &Revision<'_>, watcher: &mut dyn Watcher) -> Result<CompareReport, Error> {
    let (old, new) = (old.checked(watcher)?, new.checked(watcher)?);
    if old.part.kind != new.part.kind {
        return Err(Error::DifferentParts);
    }
    Ok(compared(&old, &new))
}
