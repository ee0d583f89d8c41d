//! Life of printed connecting rods and pistons from their own mesh.

#![forbid(unsafe_code)]

mod check;
mod direction;
mod directions;
pub mod engine;
mod error;
pub mod field;
pub mod heat;
pub mod job;
pub mod life;
pub mod load;
pub mod material;
pub mod mesh;
pub mod orient;
pub mod part;
mod piston;
pub mod print;
pub mod report;
pub mod section;
mod sensitivities;
pub mod stress;
mod sweep;
mod threads;
pub mod verdict;
pub mod wall;
mod walls;

pub use check::{
    CheckRequest, Checked, LoadedPart, PartSource, PreparedRod, Question, Stage, Watcher, check, check_facets,
    check_with, load, prepare,
};
pub use directions::{DIRECTION_RANGE, USUAL_DIRECTIONS, directions};
pub use error::Error;
pub use piston::{PreparedPiston, prepare_piston};
pub use sweep::{SPEEDS_RANGE, SpeedRange, USUAL_SPEEDS, sweep};
pub use walls::{WallRequest, Walls, walls};
