use layload_core::verdict::FieldRequest;
use layload_core::{CheckRequest, Checked};

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
    let request = CheckRequest {
        facets: arguments.paint.wanted() || arguments.facets,
        field: arguments.field.field.then_some(FieldRequest { cells: arguments.field.cells }),
    };
    let mut bar = StageBar::new();
    let Checked { mut report, facets } = layload_core::check_with(&mesh, &job.question(), &request, &mut bar)?;
    let timings = bar.solves();
    drop(bar);
    if let Some(used) = facets {
        write(&arguments.paint, &Painting::utilisation(&used))?;
        report.facet_utilisation = arguments.facets.then(|| used.values.iter().map(|v| v.unwrap_or(0.0)).collect());
    }
    if let Some(field) = report.field.as_mut().filter(|_| arguments.field.timings) {
        for (solve, taken) in field.solves.iter_mut().zip(timings) {
            solve.seconds = Some(taken.as_secs_f64());
        }
    }
    print_report(&report, arguments.rod.json, || text::report(&report, color.enabled()))?;
    Ok(if report.verdict.holds { Outcome::Good } else { Outcome::DoesNotHold })
}
