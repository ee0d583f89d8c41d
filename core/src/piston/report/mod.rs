//! The report of a piston, filled in.

mod build;
mod crank;
mod effects;
mod field;
mod notes;
mod part;
mod position;

pub(crate) use build::{PistonParts, build};
pub(crate) use part::pin_bore;
