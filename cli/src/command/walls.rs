use layload_core::{WallRequest, Walls};

use crate::answer::{give, planned};
use crate::args::WallsArguments;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::Plan;
use crate::progress::StageBar;

/// Measures walls, prints the thin ones and paints the part if asked to.
pub(crate) fn run(arguments: &WallsArguments) -> Result<Outcome, Failure> {
    let job = ReadJob::read(&arguments.rod.job)?;
    let inputs = job.files().chain([arguments.rod.mesh.as_path()]);
    let plan = Plan::new(arguments.paint.overwrite).reading(inputs);
    let outputs = planned::<Walls>(arguments, plan)?;
    let mesh = bytes(&arguments.rod.mesh)?;
    let request = WallRequest { least_mm: arguments.least_mm, every_facet: arguments.facets };
    let walls = layload_core::walls(&mesh, &job.question(), &request, &mut StageBar::new())?;
    give(&walls, arguments, arguments.rod.json, &outputs)?;
    Ok(Outcome::Good)
}
