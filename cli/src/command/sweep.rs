use layload_core::SpeedRange;

use crate::args::SweepArguments;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::{check_free, print_report, write_file};
use crate::plot::chart_svg;
use crate::progress::StageBar;
use crate::{figure, text};

/// Prints life against speed.
pub(crate) fn run(arguments: &SweepArguments) -> Result<Outcome, Failure> {
    let range = SpeedRange::new(arguments.speeds.from, arguments.speeds.to, arguments.speeds.count)?;
    if let Some(path) = &arguments.svg {
        check_free(path, arguments.overwrite)?;
    }
    let job = ReadJob::read(&arguments.rod.job)?;
    let mesh = bytes(&arguments.rod.mesh)?;
    let report = layload_core::sweep(&mesh, &job.question(), &range, &mut StageBar::new())?;
    if let Some(path) = &arguments.svg {
        write_file(path, &chart_svg(&figure::sweep(&report))?, arguments.overwrite)?;
    }
    print_report(&report, arguments.rod.json, || text::sweep(&report))?;
    Ok(Outcome::Good)
}
