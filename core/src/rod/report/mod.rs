//! The report of a rod, filled in.

mod build;
mod crank;
mod effects;
mod field;
mod fits;
mod mesh_notes;
mod notes;
mod part;
mod pins;
mod position;
mod thin;

pub(crate) use build::{Parts, build};
pub(crate) use part::bores;
