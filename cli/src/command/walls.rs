use layload_core::WallRequest;

use crate::args::WallsArguments;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::{print_json, print_text};
use crate::painted::{Painting, write};
use crate::progress::StageBar;
use crate::text;

/// Measures walls, prints the thin ones and paints the part if asked to.
pub(crate) fn run(arguments: &WallsArguments) -> Result<Outcome, Failure> {
    arguments.paint.checked()?;
    let job = ReadJob::read(&arguments.job)?;
    let mesh = bytes(&arguments.mesh)?;
    let request = WallRequest { least_mm: arguments.least_mm, every_facet: arguments.facets };
    let walls = layload_core::walls(&mesh, &job.job, &request, &mut StageBar::new())?;
    let painting = Painting::thickness(&walls.thickness_mm, walls.limit_mm);
    write(&arguments.paint, &painting)?;
    if arguments.json {
        print_json(&walls.report)?;
    } else {
        print_text(&text::walls(&walls.report))?;
    }
    Ok(Outcome::Good)
}
