use crate::args::PlacesArguments;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::{print_json, print_text};
use crate::progress::StageBar;
use crate::text;

/// Lists bores and flat faces.
pub(crate) fn run(arguments: &PlacesArguments) -> Result<Outcome, Failure> {
    let job = ReadJob::read(&arguments.rod.job)?;
    let mesh = bytes(&arguments.rod.mesh)?;
    let report = layload_core::places(&mesh, &job.job, &mut StageBar::new())?;
    if arguments.rod.json {
        print_json(&report)?;
    } else {
        print_text(&text::features(&report))?;
    }
    Ok(Outcome::Good)
}
