//! Which way up to print.
//!
//! A **build direction** is the direction in which layers are stacked, here in the frame of the rod. Each one is scored
//! by what it makes of the part's strength, what it needs in support, time and footing, and how round it prints the
//! bores. No single number joins these: the answer is the **Pareto set**, the directions that no other beats in
//! everything, with one of them recommended and the reason said. Only poses that stay on the bed compete.

mod bore;
mod choice;
mod facing;
mod footing;
mod rest;
mod score;
mod shape;
mod sphere;
mod stand;
mod symmetry;
mod time;

pub use bore::stair_step;
pub use choice::{ALIKE, AS_STRONG, Choice, chosen, pareto};
pub use facing::Facing;
pub use score::{DirectionScore, Scorer, best_around};
pub use shape::{Posed, Shape};
pub use sphere::{equal_area, ring};
pub use stand::Standing;
pub use symmetry::{Mirrors, mirrors};
pub use time::print_time;
