//! Checks a printed connecting rod from its mesh before it is printed.

mod args;
mod bench_log;
mod color;
mod command;
mod failure;
mod figure;
mod input;
mod outcome;
mod output;
mod paint;
mod painted;
mod plot;
mod progress;
mod study;
mod text;

use std::process::ExitCode;

use clap::Parser;

use crate::args::{Arguments, Command};
use crate::failure::Failure;
use crate::outcome::Outcome;

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    match run(&arguments) {
        Ok(outcome) => outcome.into(),
        Err(failure) => failure.shown(),
    }
}

fn run(arguments: &Arguments) -> Result<Outcome, Failure> {
    match &arguments.command {
        Command::Check(check) => command::check::run(check, arguments.color),
        Command::Directions(directions) => command::directions::run(directions),
        Command::Sweep(sweep) => command::sweep::run(sweep),
        Command::Walls(walls) => command::walls::run(walls),
        Command::Size(size) => command::size::run(size),
        Command::Fit(fit) => command::fit::run(fit),
        Command::Learn(learn) => command::learn::run(learn),
        Command::Study(study) => command::study::run(study),
        Command::Compare(compare) => command::compare::run(compare),
        #[cfg(feature = "host")]
        Command::Host(host) => command::host::run(host, arguments.color),
        Command::Materials(materials) => command::materials::run(materials),
        Command::Schema(schema) => command::schema::run(schema),
    }
}
