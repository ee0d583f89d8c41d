//! One file a command.

pub(crate) mod check;
pub(crate) mod compare;
pub(crate) mod directions;
pub(crate) mod fit;
#[cfg(feature = "host")]
pub(crate) mod host;
pub(crate) mod learn;
pub(crate) mod materials;
pub(crate) mod schema;
pub(crate) mod size;
pub(crate) mod study;
pub(crate) mod sweep;
pub(crate) mod walls;
