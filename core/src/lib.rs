//! Life of printed connecting rods and pistons from their own mesh.

#![forbid(unsafe_code)]

pub mod bench;
mod check;
mod compare;
pub mod coupon;
mod direction;
mod directions;
pub mod drawing;
pub mod engine;
mod error;
mod extremes;
mod few;
pub mod field;
mod file_kind;
pub mod heat;
mod help;
pub mod job;
mod learn;
pub mod life;
pub mod load;
pub mod material;
mod meant;
pub mod mesh;
pub mod orient;
pub mod part;
mod piston;
pub mod print;
mod record;
pub mod report;
pub mod section;
mod sensitivities;
mod size;
pub mod stress;
pub mod study;
mod sweep;
mod threads;
mod toml_error;
mod trial;
pub mod verdict;
pub mod wall;
mod walls;

pub use check::{
    CheckRequest, Checked, LoadedPart, PartSource, PreparedRod, Question, SolvedField, Stage, Watcher, check,
    check_facets, check_with, load, prepare, stress_field,
};
pub use compare::{Revision, compare};
pub use directions::{DIRECTION_RANGE, USUAL_DIRECTIONS, directions};
pub use error::Error;
pub use file_kind::FileKind;
pub use help::{BoresByHand, Help, OwnFile};
pub use learn::{LoggedRun, learn};
pub use meant::meant;
pub use piston::{PreparedPiston, SolvedPistonField, piston_stress_field, prepare_piston};
pub use record::{Record, record};
pub use size::{FACTOR_RANGE, SizeRequest, size};
pub use sweep::{SPEEDS_RANGE, SpeedRange, USUAL_SPEEDS, sweep};
pub use walls::{WallRequest, Walls, walls};
