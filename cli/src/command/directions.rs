use crate::answer::print;
use crate::args::DirectionsArguments;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::progress::StageBar;

/// Scores build directions and prints the one to choose.
pub(crate) fn run(arguments: &DirectionsArguments) -> Result<Outcome, Failure> {
    let job = ReadJob::read(&arguments.rod.job)?;
    let mesh = bytes(&arguments.rod.mesh)?;
    let report = layload_core::directions(
        &mesh,
        &job.question(),
        arguments.count,
        arguments.field.request(),
        &mut StageBar::new(),
    )?;
    print(&report, arguments.rod.json)?;
    Ok(report.recommended.direction.state.into())
}
