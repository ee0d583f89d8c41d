use super::check::know;
use crate::answer::print;
use crate::args::PlanArguments;
use crate::bench_log::BenchLog;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::progress::StageBar;

/// Plans a ladder of runs.
pub(crate) fn run(arguments: &PlanArguments) -> Result<Outcome, Failure> {
    let mut job = ReadJob::read(&arguments.job)?;
    let given = [Some(arguments.mesh.as_path()), arguments.job.job.as_deref()].into_iter().flatten();
    let log = arguments.log.as_deref().map(|log| BenchLog::read(log, arguments.job.any_folder, given)).transpose()?;
    let mut bar = StageBar::new();
    let part = layload_core::load(&bytes(&arguments.mesh)?, &job.job, &mut bar)?;
    if let Some(log) = &log {
        know(&mut job, &part, log, (arguments.family.as_deref(), arguments.field.request()))?;
    }
    let report = layload_core::plan(&part, &job.question(), arguments.parts, arguments.field.request(), &mut bar)?;
    drop(bar);
    print(&report, arguments.json)?;
    Ok(Outcome::Good)
}
