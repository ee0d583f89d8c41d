//! A printed part of any kind: places on it, what holds it there, what loads it, and how the loads run.
//!
//! An [`AnyPart`](crate::part::AnyPart) is the mesh with its bores and flat faces. A [`PreparedAny`](prepared::PreparedAny) joins it
//! with a job: its places are found, its holds and loads put on them. It has no sections: every answer is by its stress field,
//! whose worst places are judged again where an input changes.

mod assess;
mod assessed;
mod changes;
mod field;
mod found;
mod holds;
mod kind;
mod loaded;
mod patch;
mod place;
mod prepared;
pub(crate) mod report;
mod trial;
mod warmed;
mod warmth;
