use clap_complete::generate;

use crate::args::{Arguments, CompletionsArguments};
use crate::failure::Failure;
use crate::outcome::Outcome;
use crate::output::print_text;

/// Prints completions for a shell.
pub(crate) fn run(arguments: &CompletionsArguments) -> Result<Outcome, Failure> {
    let mut script = Vec::new();
    generate(arguments.shell, &mut Arguments::whole(), "layload", &mut script);
    print_text(&String::from_utf8_lossy(&script))?;
    Ok(Outcome::Good)
}
