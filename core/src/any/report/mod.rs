//! The report of a part of any kind.

mod build;
mod notes;
mod part;

pub(crate) use build::{AnyParts, build};
pub(crate) use part::bores;
