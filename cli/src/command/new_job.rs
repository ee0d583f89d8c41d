use crate::args::NewJobArguments;
use crate::failure::Failure;
use crate::job_file;
use crate::outcome::Outcome;
use crate::output::{Form, Plan, print_text};
use crate::visible::shown;

/// Writes a commented job file.
pub(crate) fn run(arguments: &NewJobArguments) -> Result<Outcome, Failure> {
    let outputs = Plan::new(arguments.overwrite).file(&arguments.file, Form::Toml)?.checked()?;
    outputs.write_one(&arguments.file, job_file::text(arguments.part).into_bytes())?;
    let name = shown(&arguments.file);
    print_text(&format!(
        "{name} is written. Put in your engine's numbers, then:\n  layload check PART.stl --job {name}\n"
    ))?;
    Ok(Outcome::Good)
}
