use clap_mangen::Man;

use crate::args::{Arguments, ManArguments};
use crate::failure::Failure;
use crate::outcome::Outcome;
use crate::output::print_text;

/// Prints a manual page.
pub(crate) fn run(arguments: &ManArguments) -> Result<Outcome, Failure> {
    let mut whole = Arguments::whole();
    whole.build();
    let command = match &arguments.command {
        None => whole,
        Some(name) => {
            let Some(found) = whole.find_subcommand(name) else {
                let names: Vec<&str> = whole.get_subcommands().map(clap::Command::get_name).collect();
                let help = match layload_core::meant(name, names.iter().copied()) {
                    Some(meant) => format!("did you mean {meant}?"),
                    None => format!("commands are {}", names.join(", ")),
                };
                return Err(Failure::Refused { message: format!("there is no command {name}"), help });
            };
            found.clone()
        }
    };
    let mut page = Vec::new();
    Man::new(command).render(&mut page)?;
    print_text(&String::from_utf8_lossy(&page))?;
    Ok(Outcome::Good)
}
