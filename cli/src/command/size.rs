use layload_core::SizeRequest;

use crate::args::SizeArguments;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::{check_free, print_report, write_file};
use crate::plot::chart_svg;
use crate::progress::StageBar;
use crate::{figure, text};

/// Looks for what reaches a wanted life; the exit code is 1 when nothing does.
pub(crate) fn run(arguments: &SizeArguments) -> Result<Outcome, Failure> {
    if let Some(path) = &arguments.svg {
        check_free(path, arguments.overwrite)?;
    }
    let mut job = ReadJob::read(&arguments.rod.job)?;
    if let Some(seconds) = arguments.life {
        job.job.duty.wanted_life_h = Some(seconds / 3600.0);
    }
    let mesh = bytes(&arguments.rod.mesh)?;
    let request = SizeRequest {
        factors: (arguments.range[0], arguments.range[1]),
        varied: arguments.vary.iter().map(|&name| name.into()).collect(),
        materials: arguments.materials.clone(),
        directions: arguments.directions.clone(),
        walls: arguments.wall_counts.clone(),
    };
    let report = layload_core::size(&mesh, &job.question(), &request, &mut StageBar::new())?;
    if let Some(path) = &arguments.svg {
        write_file(path, &chart_svg(&figure::size(&report))?, arguments.overwrite)?;
    }
    print_report(&report, arguments.rod.json, || text::size(&report))?;
    Ok(if report.reached { Outcome::Good } else { Outcome::DoesNotHold })
}
