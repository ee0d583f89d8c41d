use std::io::{self, Write};

use layload_core::report::json;
use owo_colors::{OwoColorize, Style};
use serde::Serialize;

use crate::failure::Failure;
use crate::visible::visible;

/// Prints a report as JSON.
pub(crate) fn print_json(report: &impl Serialize) -> Result<(), Failure> {
    print_line(&json(report).map_err(io::Error::from)?)
}

/// Prints a report as JSON on one line.
pub(crate) fn print_json_line(report: &impl Serialize) -> Result<(), Failure> {
    let json = serde_json::to_string(report).map_err(io::Error::from)?;
    print_line(&layload_core::report::visible_json(&json))
}

/// Prints JSON of another program.
#[cfg(feature = "host")]
pub(crate) fn print_json_text(json: &str) -> Result<(), Failure> {
    print_line(&layload_core::report::visible_json(json))
}

fn print_line(text: &str) -> Result<(), Failure> {
    printed(|out| {
        out.write_all(text.as_bytes())?;
        writeln!(out)
    })
}

/// Prints text.
pub(crate) fn print_text(text: &str) -> Result<(), Failure> {
    printed(|out| out.write_all(visible(text).as_bytes()))
}

/// Prints text whose first word is `word`, in its style if it has one.
pub(crate) fn print_marked(text: &str, word: &str, style: Option<Style>) -> Result<(), Failure> {
    let text = visible(text);
    match (style, text.strip_prefix(word)) {
        (Some(style), Some(rest)) => printed(|out| write!(out, "{}{rest}", word.style(style))),
        _ => printed(|out| out.write_all(text.as_bytes())),
    }
}

fn printed(write: impl FnOnce(&mut io::StdoutLock<'static>) -> io::Result<()>) -> Result<(), Failure> {
    let mut out = io::stdout().lock();
    match write(&mut out).and_then(|()| out.flush()) {
        // Whoever read our output has seen enough; the answer stands all the same.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        other => Ok(other?),
    }
}
