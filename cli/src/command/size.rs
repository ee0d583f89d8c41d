use layload_core::SizeRequest;
use layload_core::report::SizeReport;

use crate::answer::{give, planned};
use crate::args::SizeArguments;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::Plan;
use crate::progress::StageBar;

/// Looks for what reaches a wanted life; the exit code is 1 when nothing does.
pub(crate) fn run(arguments: &SizeArguments) -> Result<Outcome, Failure> {
    let job = ReadJob::read(&arguments.rod.job)?;
    let inputs = job.files().chain([arguments.rod.mesh.as_path()]);
    let outputs = planned::<SizeReport>(arguments, Plan::new(arguments.overwrite).reading(inputs))?;
    let mesh = bytes(&arguments.rod.mesh)?;
    let request = SizeRequest {
        factors: (arguments.range[0], arguments.range[1]),
        varied: arguments.vary.iter().map(|&name| name.into()).collect(),
        materials: arguments.materials.clone(),
        directions: arguments.directions.clone(),
        walls: arguments.wall_counts.clone(),
        field: arguments.field.request(),
    };
    let report = layload_core::size(&mesh, &job.question(), &request, &mut StageBar::new())?;
    give(&report, arguments, arguments.rod.json, &outputs)?;
    // Where sections alone were asked, that one reaches it is no answer.
    Ok(report.lightest.map_or(Outcome::DoesNotHold, |lightest| report.candidates[lightest].state.into()))
}
