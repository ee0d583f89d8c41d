use std::io::{self, Write};

use layload_core::report::Report;

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
    let outcome = if report.verdict.holds { Outcome::Good } else { Outcome::DoesNotHold };
    match written(&report, arguments.json, color) {
        // Whoever read our output has seen enough; the verdict stands all the same.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(outcome),
        Err(error) => Err(error.into()),
        Ok(()) => Ok(outcome),
    }
}

fn written(report: &Report, json: bool, color: ColorChoice) -> io::Result<()> {
    let mut out = io::stdout().lock();
    if json {
        serde_json::to_writer_pretty(&mut out, report)?;
        writeln!(out)?;
    } else {
        out.write_all(text::report(report, color.enabled()).as_bytes())?;
    }
    out.flush()
}
