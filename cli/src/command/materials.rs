use layload_core::job::JobError;
use layload_core::material::Card;

use crate::answer::{Shown, give, planned};
use crate::args::MaterialsArguments;
use crate::failure::Failure;
use crate::outcome::Outcome;
use crate::output::{Plan, print_text};
use crate::text::grounds::grounds;
use crate::text::wrap::paragraph;

/// Lists the embedded cards, or prints one as it stands: it can serve as the start of a card file.
pub(crate) fn run(arguments: &MaterialsArguments) -> Result<Outcome, Failure> {
    let Some(name) = &arguments.name else {
        print_text(&listed()?)?;
        return Ok(Outcome::Good);
    };
    let outputs = planned::<Shown>(arguments, Plan::new(arguments.overwrite))?;
    let card = Card::named(name).map_err(JobError::from)?;
    let as_it_stands = || Card::text_of(name).map(String::from).map_err(JobError::from);
    let text = if arguments.rows { grounds(&card) } else { as_it_stands()? };
    let answer = Shown { card, text };
    give(&answer, arguments, false, &outputs)?;
    Ok(Outcome::Good)
}

fn listed() -> Result<String, JobError> {
    let mut lines = String::new();
    for name in Card::families() {
        let card = Card::named(name)?;
        let numbers = format!(
            "{name:<10} softens near {:>3.0} °C  layers {:>3.0} of {:>3.0} MPa  ",
            card.temperature.softening_c.value, card.strength.layer_mpa.value, card.strength.bead_mpa.value,
        );
        paragraph(&mut lines, &numbers, "           ", &card.family);
    }
    Ok(lines)
}
