//! Parts of any kind: places found, holds, loads, histories, and what is refused.

pub(crate) mod closed_forms;
pub(crate) mod given;
mod refused;
pub(crate) mod rod;
mod turned;
