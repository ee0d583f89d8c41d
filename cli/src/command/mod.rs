//! One file a command.

pub(crate) mod check;
pub(crate) mod directions;
pub(crate) mod materials;
pub(crate) mod schema;
pub(crate) mod sweep;
pub(crate) mod walls;
