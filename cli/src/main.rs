//! Checks a printed connecting rod from its mesh before it is printed.

use std::process::ExitCode;

fn main() -> ExitCode {
    layload::run()
}
