use layload_core::job::JobError;
use layload_core::material::library;

use crate::args::MaterialsArguments;
use crate::failure::Failure;
use crate::figure;
use crate::outcome::Outcome;
use crate::output::{Plan, print_text};
use crate::plot::chart_svg;
use crate::text::wrap::paragraph;

/// Lists the embedded cards, or prints one as it stands: it can serve as the start of a card file.
pub(crate) fn run(arguments: &MaterialsArguments) -> Result<Outcome, Failure> {
    if let (Some(name), Some(path)) = (&arguments.name, &arguments.svg) {
        let outputs = Plan::new(arguments.overwrite).drawing(Some(path))?;
        let card = library::card(name).map_err(JobError::from)?;
        let told = print_text(library::card_text(name).map_err(JobError::from)?);
        outputs.write_one(path, chart_svg(&figure::fatigue(&card))?)?;
        told?;
        return Ok(Outcome::Good);
    }
    match &arguments.name {
        Some(name) => print_text(library::card_text(name).map_err(JobError::from)?)?,
        None => print_text(&listed()?)?,
    }
    Ok(Outcome::Good)
}

fn listed() -> Result<String, JobError> {
    let mut lines = String::new();
    for name in library::names() {
        let card = library::card(name)?;
        let numbers = format!(
            "{name:<10} softens near {:>3.0} °C  layers {:>3.0} of {:>3.0} MPa  ",
            card.temperature.softening_c.value, card.strength.layer_mpa.value, card.strength.bead_mpa.value,
        );
        paragraph(&mut lines, &numbers, "           ", &card.family);
    }
    Ok(lines)
}
