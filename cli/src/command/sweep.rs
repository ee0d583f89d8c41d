use layload_core::SpeedRange;
use layload_core::report::SweepReport;

use crate::answer::{give, planned};
use crate::args::SweepArguments;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::Plan;
use crate::progress::StageBar;

/// Prints life against speed.
pub(crate) fn run(arguments: &SweepArguments) -> Result<Outcome, Failure> {
    let range = SpeedRange::new(arguments.speeds.from, arguments.speeds.to, arguments.speeds.count)?;
    let job = ReadJob::read(&arguments.rod.job)?;
    let inputs = job.files().chain([arguments.rod.mesh.as_path()]);
    let outputs = planned::<SweepReport>(arguments, Plan::new(arguments.overwrite).reading(inputs))?;
    let mesh = bytes(&arguments.rod.mesh)?;
    let report = layload_core::sweep(&mesh, &job.question(), &range, arguments.field.request(), &mut StageBar::new())?;
    give(&report, arguments, arguments.rod.json, &outputs)?;
    Ok(Outcome::Good)
}
