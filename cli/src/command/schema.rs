use std::io::{self, Write};

use crate::failure::Failure;
use crate::outcome::Outcome;

/// Prints the JSON Schema of the report.
pub(crate) fn run() -> Result<Outcome, Failure> {
    let mut out = io::stdout().lock();
    serde_json::to_writer_pretty(&mut out, &layload_core::report::json_schema()).map_err(io::Error::from)?;
    writeln!(out)?;
    Ok(Outcome::Good)
}
