use crate::args::DirectionsArguments;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::print_report;
use crate::progress::StageBar;
use crate::text;

/// Scores build directions and prints the one to choose.
pub(crate) fn run(arguments: &DirectionsArguments) -> Result<Outcome, Failure> {
    let job = ReadJob::read(&arguments.rod.job)?;
    let mesh = bytes(&arguments.rod.mesh)?;
    let report = layload_core::directions(&mesh, &job.question(), arguments.count, &mut StageBar::new())?;
    print_report(&report, arguments.rod.json, || text::directions(&report))?;
    let holds = report.recommended.direction.margin >= 1.0;
    Ok(if holds { Outcome::Good } else { Outcome::DoesNotHold })
}
