//! The command line as a library: the program is [`run`], and `main.rs` calls it.
//!
//! [`plot`] draws pictures and [`paint`] colours meshes; both know no part and no engine.

mod answer;
mod args;
mod bench_log;
mod color;
mod command;
mod explain;
mod failure;
mod figure;
mod help;
mod html;
mod input;
mod job_file;
mod outcome;
mod output;
pub mod paint;
pub mod plot;
mod progress;
mod study;
mod text;
mod visible;

use std::process::ExitCode;

use clap::error::{ContextKind, ContextValue};

pub use crate::answer::{FileOutput, file_outputs};
use crate::args::{Arguments, Command};
use crate::failure::Failure;
use crate::outcome::Outcome;
use crate::visible::visible;

/// Does what the arguments of this process ask for, and says how it ended.
pub fn run() -> ExitCode {
    let arguments = match Arguments::read() {
        Ok(arguments) => arguments,
        Err(error) => return refused(&error),
    };
    match answer(&arguments) {
        Ok(outcome) => outcome.into(),
        Err(failure) => failure.shown(),
    }
}

fn answer(arguments: &Arguments) -> Result<Outcome, Failure> {
    match &arguments.command {
        Command::Check(check) => command::check::run(check, arguments.color),
        Command::Directions(directions) => command::directions::run(directions),
        Command::Sweep(sweep) => command::sweep::run(sweep),
        Command::Walls(walls) => command::walls::run(walls),
        Command::Places(places) => command::places::run(places),
        Command::Size(size) => command::size::run(size),
        Command::Fit(fit) => command::fit::run(fit),
        Command::Learn(learn) => command::learn::run(learn),
        Command::Diagnose(diagnose) => command::diagnose::run(diagnose),
        Command::Plan(plan) => command::plan::run(plan),
        Command::Study(study) => command::study::run(study),
        Command::Compare(compare) => command::compare::run(compare),
        #[cfg(feature = "host")]
        Command::Host(host) => command::host::run(host, arguments.color),
        Command::Materials(materials) => command::materials::run(materials),
        Command::NewJob(job) => command::new_job::run(job),
        Command::NewStudy(study) => command::new_study::run(study),
        Command::Explain(explain) => command::explain::run(explain),
        Command::Completions(completions) => command::completions::run(completions),
        Command::Man(man) => command::man::run(man),
        Command::Schema(schema) => command::schema::run(schema),
    }
}

/// What to say of a number that was written with a comma.
fn with_comma(error: &clap::Error) -> Option<&'static str> {
    let Some(ContextValue::String(value)) = error.get(ContextKind::InvalidValue) else { return None };
    let number = value.matches(',').count() == 1 && value.replace(',', ".").parse::<f64>().is_ok();
    number.then_some("\n  help: numbers have a point, not a comma: 52.5\n")
}

/// Help, version, or what is wrong with the command line, no wider than the terminal.
fn refused(error: &clap::Error) -> ExitCode {
    if !error.use_stderr() {
        error.exit();
    }
    let text = error.render().to_string() + with_comma(error).unwrap_or_default();
    for line in visible(&text).lines() {
        let indent = line.chars().take_while(|letter| *letter == ' ').count() + 2;
        let rest = " ".repeat(indent);
        // Names of options and files must not be broken in two.
        let options = textwrap::Options::new(text::wrap::width())
            .subsequent_indent(&rest)
            .break_words(false)
            .word_splitter(textwrap::WordSplitter::NoHyphenation)
            .word_separator(textwrap::WordSeparator::AsciiSpace);
        eprintln!("{}", textwrap::fill(line, options));
    }
    ExitCode::from(outcome::BAD_INPUT)
}
