//! Numerical helpers by name.

mod direction;
mod extremes;
mod order;
mod roots;
mod threads;

pub(crate) use direction::unit;
pub(crate) use extremes::{greater, lesser};
pub(crate) use order::{sort_few, sort_few_by_key};
pub(crate) use roots::{crossing, falls_through_one, halved, halved_surely};
pub(crate) use threads::{both, map_blocks, map_each, map_in_order, map_pieces, pieces, workers};
