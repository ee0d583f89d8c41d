use crate::args::NewStudyArguments;
use crate::failure::Failure;
use crate::job_file;
use crate::outcome::Outcome;
use crate::output::{Form, Plan, print_text};
use crate::visible::shown;

/// Writes a commented study file.
pub(crate) fn run(arguments: &NewStudyArguments) -> Result<Outcome, Failure> {
    let outputs = Plan::new(arguments.overwrite).file(&arguments.file, Form::Toml)?.checked()?;
    let text = job_file::study(&arguments.job, &arguments.mesh);
    outputs.write_one(&arguments.file, text.into_bytes())?;
    let name = shown(&arguments.file);
    print_text(&format!("{name} is written. Put in your ranges, then:\n  layload study {name} --out RESULTS\n"))?;
    Ok(Outcome::Good)
}
