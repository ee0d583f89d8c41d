//! Numerical helpers by name.

mod direction;
mod extremes;
mod order;
mod roots;
mod rows;
mod threads;

pub use direction::unit;
pub use extremes::{greater, lesser};
pub use order::{sort_few, sort_few_by_key};
pub use roots::{crossing, falls_through_one, halved, halved_surely};
pub use rows::{Row, four_sums, one_sum};
pub use threads::{both, map_blocks, map_each, map_in_order, map_pieces, pieces, workers};
