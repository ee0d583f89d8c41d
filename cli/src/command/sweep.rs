use layload_core::SpeedRange;

use crate::args::SweepArguments;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::{Plan, print_report};
use crate::plot::chart_svg;
use crate::progress::StageBar;
use crate::{figure, text};

/// Prints life against speed.
pub(crate) fn run(arguments: &SweepArguments) -> Result<Outcome, Failure> {
    let range = SpeedRange::new(arguments.speeds.from, arguments.speeds.to, arguments.speeds.count)?;
    let job = ReadJob::read(&arguments.rod.job)?;
    let inputs = job.files().chain([arguments.rod.mesh.as_path()]);
    let outputs = Plan::new(arguments.overwrite).reading(inputs).drawing(arguments.svg.as_deref())?;
    let mesh = bytes(&arguments.rod.mesh)?;
    let report = layload_core::sweep(&mesh, &job.question(), &range, &mut StageBar::new())?;
    let told = print_report(&report, arguments.rod.json, || text::sweep(&report));
    if let Some(path) = &arguments.svg {
        outputs.write_one(path, chart_svg(&figure::sweep(&report))?)?;
    }
    told?;
    Ok(Outcome::Good)
}
