use crate::args::NewJobArguments;
use crate::failure::Failure;
use crate::job_file;
use crate::outcome::Outcome;
use crate::output::{check_free, print_text, write_file};

/// Writes a commented job file.
pub(crate) fn run(arguments: &NewJobArguments) -> Result<Outcome, Failure> {
    check_free(&arguments.file, arguments.overwrite)?;
    write_file(&arguments.file, job_file::text(arguments.part).as_bytes(), arguments.overwrite)?;
    let name = arguments.file.display();
    print_text(&format!(
        "{name} is written. Put in your engine's numbers, then:\n  layload check PART.stl --job {name}\n"
    ))?;
    Ok(Outcome::Good)
}
