use std::io::{self, Write};

use crate::args::CheckArguments;
use crate::color::ColorChoice;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::progress::StageBar;
use crate::text;

/// Checks a rod and prints the answer.
pub(crate) fn run(arguments: &CheckArguments, color: ColorChoice) -> Result<Outcome, Failure> {
    let job = ReadJob::read(&arguments.job)?;
    let mesh = bytes(&arguments.mesh)?;
    let report = layload_core::check(&mesh, &job.question(), &mut StageBar::new())?;
    let mut out = io::stdout().lock();
    if arguments.json {
        serde_json::to_writer_pretty(&mut out, &report).map_err(io::Error::from)?;
        writeln!(out)?;
    } else {
        out.write_all(text::report(&report, color.enabled()).as_bytes())?;
    }
    out.flush()?;
    Ok(if report.verdict.holds { Outcome::Good } else { Outcome::DoesNotHold })
}
