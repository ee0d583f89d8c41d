use crate::args::CheckArguments;
use crate::color::ColorChoice;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::print_report;
use crate::painted::{Painting, write};
use crate::progress::StageBar;
use crate::text;

/// Checks a rod, prints the answer and paints the part if asked to.
pub(crate) fn run(arguments: &CheckArguments, color: ColorChoice) -> Result<Outcome, Failure> {
    arguments.paint.checked()?;
    let job = ReadJob::read(&arguments.rod.job)?;
    let mesh = bytes(&arguments.rod.mesh)?;
    let report = if arguments.paint.wanted() || arguments.facets {
        let (mut report, used) = layload_core::check_facets(&mesh, &job.question(), &mut StageBar::new())?;
        write(&arguments.paint, &Painting::utilisation(&used))?;
        report.facet_utilisation = arguments.facets.then(|| used.values.into_iter().flatten().collect());
        report
    } else {
        layload_core::check(&mesh, &job.question(), &mut StageBar::new())?
    };
    print_report(&report, arguments.rod.json, || text::report(&report, color.enabled()))?;
    Ok(if report.verdict.holds { Outcome::Good } else { Outcome::DoesNotHold })
}
