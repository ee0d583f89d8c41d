//! One file a command.

pub(crate) mod check;
pub(crate) mod directions;
#[cfg(feature = "host")]
pub(crate) mod host;
pub(crate) mod materials;
pub(crate) mod schema;
pub(crate) mod sweep;
pub(crate) mod walls;
