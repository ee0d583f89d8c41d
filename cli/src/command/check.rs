use layload_core::report::Report;

use crate::args::CheckArguments;
use crate::color::ColorChoice;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::print_report;
use crate::painted::{self, Painting};
use crate::progress::StageBar;
use crate::{recorded, text};

/// Checks a part, writes the files asked for and prints the answer.
pub(crate) fn run(arguments: &CheckArguments, color: ColorChoice) -> Result<Outcome, Failure> {
    arguments.paint.checked()?;
    arguments.record.checked(arguments.paint.overwrite)?;
    let job = ReadJob::read(&arguments.rod.job)?;
    let mesh = bytes(&arguments.rod.mesh)?;
    let report = if arguments.record.wanted() {
        recorded(arguments, &job, &mesh)?
    } else if arguments.paint.wanted() || arguments.facets {
        let (mut report, used) = layload_core::check_facets(&mesh, &job.question(), &mut StageBar::new())?;
        painted::write(&arguments.paint, &Painting::utilisation(&used))?;
        report.facet_utilisation = arguments.facets.then(|| used.values.into_iter().flatten().collect());
        report
    } else {
        layload_core::check(&mesh, &job.question(), &mut StageBar::new())?
    };
    print_report(&report, arguments.rod.json, || text::report(&report, color.enabled()))?;
    Ok(if report.verdict.holds { Outcome::Good } else { Outcome::DoesNotHold })
}

/// One result for the page, the drawings, the tables, the painted part and what is printed.
fn recorded(arguments: &CheckArguments, job: &ReadJob, mesh: &Vec<u8>) -> Result<Report, Failure> {
    let facets = arguments.paint.wanted() || arguments.facets;
    let record = layload_core::record(mesh, &job.question(), facets, &mut StageBar::new())?;
    let inputs = recorded::inputs(&arguments.rod.mesh, mesh, job)?;
    recorded::write(&arguments.record, &record, &inputs, arguments.paint.overwrite)?;
    if let Some(used) = &record.facets {
        painted::write(&arguments.paint, &Painting::utilisation(used))?;
    }
    Ok(if arguments.facets { recorded::with_facets(&record) } else { record.report })
}
