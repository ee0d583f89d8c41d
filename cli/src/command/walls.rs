use layload_core::WallRequest;

use crate::args::WallsArguments;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::{Plan, print_report};
use crate::painted::{Painting, write};
use crate::progress::StageBar;
use crate::text;

/// Measures walls, prints the thin ones and paints the part if asked to.
pub(crate) fn run(arguments: &WallsArguments) -> Result<Outcome, Failure> {
    let job = ReadJob::read(&arguments.rod.job)?;
    let inputs = job.files().chain([arguments.rod.mesh.as_path()]);
    let plan = Plan::new(arguments.paint.overwrite).reading(inputs);
    let outputs = arguments.paint.planned(plan)?.checked()?;
    let mesh = bytes(&arguments.rod.mesh)?;
    let request = WallRequest { least_mm: arguments.least_mm, every_facet: arguments.facets };
    let walls = layload_core::walls(&mesh, &job.question(), &request, &mut StageBar::new())?;
    let painting = Painting::thickness(&walls.thickness_mm, walls.limit_mm);
    let told = print_report(&walls.report, arguments.rod.json, || text::walls(&walls.report));
    write(&arguments.paint, &painting, &outputs)?;
    told?;
    Ok(Outcome::Good)
}
