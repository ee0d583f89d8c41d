//! One file a command.

pub(crate) mod check;
pub(crate) mod completions;
pub(crate) mod directions;
pub(crate) mod explain;
#[cfg(feature = "host")]
pub(crate) mod host;
pub(crate) mod man;
pub(crate) mod materials;
pub(crate) mod new_job;
pub(crate) mod schema;
pub(crate) mod sweep;
pub(crate) mod walls;
