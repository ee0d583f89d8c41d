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
pub use question::{
    CaseResult, CheckRequest, Checked, DIRECTION_RANGE, FACTOR_RANGE, LoadedPart, LoggedRun, PartSource, PreparedRod,
    Question, Record, Revision, SPEEDS_RANGE, SizeRequest, SolvedField, SpeedRange, Stage, Study, USUAL_DIRECTIONS,
    USUAL_SPEEDS, WallRequest, Walls, Watcher, check, check_facets, check_with, compare, directions, learn, load,
    prepare, record, size, stress_field, sweep, walls,
};
