//! Answers and everything that they are given out as.
//!
//! An [`Answer`] is printed, in words or as JSON, and written as the files of its list. `list.rs` has all of them: which
//! outputs a question has, the option that asks for each, what kind of file it is, and what writes it.

mod checked;
mod list;
mod painted;
mod recorded;

use std::path::{Path, PathBuf};

use owo_colors::Style;
use serde::Serialize;

use crate::failure::Failure;
use crate::output::{Form, Outputs, Plan, print_json, print_marked, print_text};

pub(crate) use checked::Checked;
pub(crate) use list::{Diagnosed, FittedCard, Learned, Shown, Studied};
pub use list::{FileOutput, file_outputs};
pub(crate) use recorded::inputs;

/// A file and its bytes.
pub(crate) type Written = (PathBuf, Vec<u8>);

/// What a question is answered with.
pub(crate) trait Answer: Sized + 'static {
    /// The arguments, which name the files.
    type Asked;
    /// What is printed as JSON.
    type Report: Serialize;
    /// The command that asks.
    const COMMAND: &'static str;
    /// Every file there is of it, in the order in which they are written. Those of a group belong together: they are written
    /// all of them or none.
    const FILES: &'static [&'static [Output<Self>]];

    /// The answer as plain data.
    fn report(&self) -> &Self::Report;

    /// The answer in words.
    fn words(&self) -> String;

    /// The word with which the words begin, and its colours where it is shown in colour.
    fn mark(&self) -> Option<(&'static str, Option<Style>)> {
        None
    }
}

/// One output of an answer to a file or a folder.
pub(crate) struct Output<A: Answer> {
    /// The option that asks for it.
    pub(crate) option: &'static str,
    /// What it is.
    pub(crate) kind: Kind,
    /// Where it is wanted.
    pub(crate) to: fn(&A::Asked) -> Option<&Path>,
    /// What is written.
    pub(crate) files: fn(&A, &Path) -> Result<Vec<Written>, Failure>,
}

/// What an option of a file names.
pub(crate) enum Kind {
    /// One file.
    File(Form),
    /// A folder and what may come into it.
    Folder(&'static [&'static str]),
}

/// Looks whether every file that is asked for has a place; before the work.
pub(crate) fn planned<A: Answer>(asked: &A::Asked, mut plan: Plan) -> Result<Outputs, Failure> {
    for output in A::FILES.iter().copied().flatten() {
        plan = match ((output.to)(asked), &output.kind) {
            (None, _) => plan,
            (Some(path), Kind::File(form)) => plan.file(path, *form)?,
            (Some(folder), Kind::Folder(names)) => plan.folder(folder, names, output.option)?,
        };
    }
    plan.checked()
}

/// Prints an answer, as JSON or in words.
pub(crate) fn print<A: Answer>(answer: &A, json: bool) -> Result<(), Failure> {
    if json {
        return print_json(answer.report());
    }
    let words = answer.words();
    match answer.mark() {
        Some((word, style)) => print_marked(&words, word, style),
        None => print_text(&words),
    }
}

/// Writes the files that are asked for, of each group all or none; a group that fails keeps back none of the others.
pub(crate) fn write<A: Answer>(answer: &A, asked: &A::Asked, outputs: &Outputs) -> Result<(), Failure> {
    A::FILES.iter().map(|group| outputs.write(&made(answer, asked, group)?)).fold(Ok(()), Result::and)
}

/// Every file that is asked for, for an answer that decides how many there are.
pub(crate) fn files<A: Answer>(answer: &A, asked: &A::Asked) -> Result<Vec<Written>, Failure> {
    let groups: Vec<Vec<Written>> =
        A::FILES.iter().map(|group| made(answer, asked, group)).collect::<Result<_, Failure>>()?;
    Ok(groups.concat())
}

/// The files of a group that are asked for.
fn made<A: Answer>(answer: &A, asked: &A::Asked, group: &[Output<A>]) -> Result<Vec<Written>, Failure> {
    let mut list = Vec::new();
    for output in group {
        if let Some(to) = (output.to)(asked) {
            list.extend((output.files)(answer, to)?);
        }
    }
    Ok(list)
}

/// Prints an answer and writes its files. The answer comes first: a file that cannot be written does not keep it back.
pub(crate) fn give<A: Answer>(answer: &A, asked: &A::Asked, json: bool, outputs: &Outputs) -> Result<(), Failure> {
    let told = print(answer, json);
    let written = write(answer, asked, outputs);
    told.and(written)
}
