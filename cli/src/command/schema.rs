use crate::args::SchemaArguments;
use crate::failure::Failure;
use crate::outcome::Outcome;
use crate::output::print_json;

/// Prints the JSON Schema of a report.
pub(crate) fn run(arguments: &SchemaArguments) -> Result<Outcome, Failure> {
    print_json(&layload_core::report::json_schema(arguments.of.into()))?;
    Ok(Outcome::Good)
}
