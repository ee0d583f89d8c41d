mod build;
mod notes;

pub(crate) use build::{PistonParts, build_piston};
