//! Life of printed connecting rods and pistons from their own mesh.

#![forbid(unsafe_code)]

pub mod bench;
pub mod coupon;
pub mod drawing;
pub mod engine;
mod error;
pub mod field;
pub mod heat;
mod input;
pub mod job;
pub mod kind;
pub mod life;
pub mod load;
pub mod material;
pub mod mesh;
mod numeric;
pub mod orient;
pub mod part;
pub mod piston;
pub mod print;
mod question;
pub mod report;
pub mod rod;
pub mod section;
pub mod stress;
pub mod study;
pub mod verdict;
pub mod wall;

pub use error::Error;
pub use input::{FileKind, meant};
pub use kind::{CheckRequest, Checked, LoadedPart, Question, SPEEDS_RANGE, SpeedRange, Stage, USUAL_SPEEDS, Watcher};
pub use question::{
    CaseResult, DIRECTION_RANGE, FACTOR_RANGE, LoggedRun, PartSource, Record, Revision, SizeRequest, Study,
    USUAL_DIRECTIONS, WallRequest, Walls, check, check_with, compare, directions, learn, load, of_kind, prepare,
    record, size, sweep, walls,
};
