//! Where answers go: standard output, and files that are checked before the work and written whole or not at all.
//!
//! A command says in a [`Plan`] which files it will write and which it reads. Checking that gives the [`Outputs`], the only
//! way to write: so nothing is worked out for a file that has no place, and no input is ever overwritten.

mod form;
mod plan;
mod print;
mod staged;
mod target;

pub(crate) use form::Form;
pub(crate) use plan::{Outputs, Plan};
#[cfg(feature = "host")]
pub(crate) use print::print_json_text;
pub(crate) use print::{print_json, print_json_line, print_marked, print_text};
pub(crate) use target::appendable;
