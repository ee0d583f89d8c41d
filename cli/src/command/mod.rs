//! One file a command.

pub(crate) mod check;
mod check_many;
pub(crate) mod compare;
pub(crate) mod completions;
pub(crate) mod diagnose;
pub(crate) mod directions;
pub(crate) mod explain;
pub(crate) mod fit;
#[cfg(feature = "host")]
pub(crate) mod host;
pub(crate) mod learn;
pub(crate) mod man;
pub(crate) mod materials;
pub(crate) mod new_job;
pub(crate) mod new_study;
pub(crate) mod places;
pub(crate) mod plan;
pub(crate) mod schema;
pub(crate) mod size;
pub(crate) mod study;
pub(crate) mod sweep;
pub(crate) mod walls;
