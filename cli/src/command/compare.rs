use layload_core::report::CompareReport;
use layload_core::{PartSource, Revision};

use crate::answer::{give, planned};
use crate::args::CompareArguments;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::Plan;
use crate::progress::StageBar;

/// Sets two revisions side by side; the exit code is the new one's.
pub(crate) fn run(arguments: &CompareArguments) -> Result<Outcome, Failure> {
    let old_job = ReadJob::read(&arguments.job)?;
    let new_job = match &arguments.new_job {
        Some(path) => ReadJob::read_from(Some(path), &arguments.job)?,
        None => ReadJob::read(&arguments.job)?,
    };
    let inputs = old_job.files().chain(new_job.files()).chain([arguments.old.as_path(), &arguments.new]);
    let outputs = planned::<CompareReport>(arguments, Plan::new(arguments.overwrite).reading(inputs))?;
    let (old, new) = (bytes(&arguments.old)?, bytes(&arguments.new)?);
    let old = Revision { source: PartSource::Stl(&old), question: old_job.question() };
    let new = Revision { source: PartSource::Stl(&new), question: new_job.question() };
    let report = layload_core::compare(&old, &new, arguments.field.request(), &mut StageBar::new())?;
    give(&report, arguments, arguments.json, &outputs)?;
    Ok(report.new.state.into())
}
