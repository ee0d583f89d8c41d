use std::io::{self, Write};

use layload_core::job::JobError;
use layload_core::material::library;

use crate::args::MaterialsArguments;
use crate::failure::Failure;
use crate::outcome::Outcome;
use crate::text::wrap::paragraph;

/// Lists the embedded cards, or prints one as it stands: it can serve as the start of a card file.
pub(crate) fn run(arguments: &MaterialsArguments) -> Result<Outcome, Failure> {
    let mut out = io::stdout().lock();
    match &arguments.name {
        Some(name) => out.write_all(library::card_text(name).map_err(JobError::from)?.as_bytes())?,
        None => {
            for name in library::names() {
                let card = library::card(name).map_err(JobError::from)?;
                let numbers = format!(
                    "{name:<10} softens near {:>3.0} °C  layers {:>3.0} of {:>3.0} MPa  ",
                    card.temperature.softening_c.value, card.strength.layer_mpa.value, card.strength.bead_mpa.value,
                );
                let mut lines = String::new();
                paragraph(&mut lines, &numbers, "           ", &card.family);
                out.write_all(lines.as_bytes())?;
            }
        }
    }
    Ok(Outcome::Good)
}
