use clap::CommandFactory;
use clap_mangen::Man;

use crate::args::{Arguments, ManArguments};
use crate::failure::Failure;
use crate::outcome::Outcome;
use crate::output::print_text;

/// Prints a manual page.
pub(crate) fn run(arguments: &ManArguments) -> Result<Outcome, Failure> {
    let mut whole = Arguments::command();
    whole.build();
    let command = match &arguments.command {
        None => whole,
        Some(name) => {
            let Some(found) = whole.find_subcommand(name) else {
                let names: Vec<&str> = whole.get_subcommands().map(clap::Command::get_name).collect();
                return Err(Failure::Refused {
                    message: format!("there is no command {name}"),
                    help: format!("one of {}", names.join(", ")),
                });
            };
            found.clone()
        }
    };
    let mut page = Vec::new();
    Man::new(command).render(&mut page)?;
    print_text(&String::from_utf8_lossy(&page))?;
    Ok(Outcome::Good)
}
