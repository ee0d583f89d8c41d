//! Life of printed connecting rods and pistons of small engines, from their own mesh.
//!
//! Will it live at this speed, for how long, what fails first and where, which way up to print it, which walls are too thin,
//! what to change: each of these is one function here, from the bytes of an STL file and a job to a report of plain types.
//!
//! | question | function |
//! |---|---|
//! | will it hold, for how long, how fast | [`check`], [`check_with`] |
//! | which way up to print it | [`directions`] |
//! | which walls are too thin | [`walls`] |
//! | which bores and faces can be places of a part of any kind | [`places`] |
//! | life against speed | [`sweep`] |
//! | which thickness, material and walls reach a life | [`size`] |
//! | what changed between two revisions | [`compare`] |
//! | what bench runs teach | [`learn`] |
//! | what caused a break | [`diagnose`] |
//! | how to run a part up on the bench | [`plan`] |
//! | what matters most over many cases | [`Study`] |
//! | everything a written record shows | [`record`] |
//! | a card from test pieces of one's own | [`coupon::fit_card`] |
//!
//! A whole check:
//!
//! ```
//! use layload_core::job::Job;
//! use layload_core::{Question, check};
//!
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
//! let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
//! let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
//! let question = Question { job: &job, card_text: None, pressure_text: None };
//! let report = check(&stl, &question, &mut ())?;
//! println!("margin {:.2}: {}", report.verdict.margin, report.verdict.governing_mode.words());
//! assert!(report.verdict.margin > 0.0 && report.verdict.life_s > 0.0);
//! # Ok(())
//! # }
//! ```
//!
//! # Units
//!
//! SI inside; at every edge, in jobs, cards and reports, the unit is in the name: `stroke_mm`, `peak_pressure_bar`, `life_s`.
//!
//! # What it does not do
//!
//! It reads no file, asks no clock and writes to no terminal; the host hands bytes and texts over. The same input gives the
//! same bytes on every machine, in a sandbox and with any number of threads. A report is an estimate, never an approval: read
//! its `cautions`.
//!
//! # Features
//!
//! - `threads` (default): work is shared between threads.
//! - `field` (default): the stress field of the whole part.
//! - `rooms`: the folders behind the questions are public too, with a part of a kind of one's own by the traits in `kind`; they
//!   change without notice.

#![forbid(unsafe_code)]
// What only tests and kinds of other programs reach is private without the feature.
#![cfg_attr(not(feature = "rooms"), allow(dead_code, unreachable_pub, unused_imports))]

mod any;
pub mod bench;
#[cfg(not(feature = "rooms"))]
mod bond;
#[cfg(feature = "rooms")]
pub mod bond;
pub mod coupon;
pub mod diagnosis;
pub mod drawing;
#[cfg(not(feature = "rooms"))]
mod engine;
#[cfg(feature = "rooms")]
pub mod engine;
mod error;
#[cfg(not(feature = "rooms"))]
mod heat;
#[cfg(feature = "rooms")]
pub mod heat;
mod input;
pub mod job;
#[cfg(not(feature = "rooms"))]
mod journal;
#[cfg(feature = "rooms")]
pub mod journal;
#[cfg(not(feature = "rooms"))]
mod kind;
#[cfg(feature = "rooms")]
pub mod kind;
#[cfg(not(feature = "rooms"))]
mod ladder;
#[cfg(feature = "rooms")]
pub mod ladder;
#[cfg(not(feature = "rooms"))]
mod life;
#[cfg(feature = "rooms")]
pub mod life;
#[cfg(not(feature = "rooms"))]
mod load;
#[cfg(feature = "rooms")]
pub mod load;
pub mod material;
#[cfg(not(feature = "rooms"))]
mod orient;
#[cfg(feature = "rooms")]
pub mod orient;
#[cfg(not(feature = "rooms"))]
mod part;
#[cfg(feature = "rooms")]
pub mod part;
#[cfg(not(feature = "rooms"))]
mod piston;
#[cfg(feature = "rooms")]
pub mod piston;
#[cfg(not(feature = "rooms"))]
mod print;
#[cfg(feature = "rooms")]
pub mod print;
mod question;
pub mod report;
#[cfg(not(feature = "rooms"))]
mod rod;
#[cfg(feature = "rooms")]
pub mod rod;
#[cfg(not(feature = "rooms"))]
mod section;
#[cfg(feature = "rooms")]
pub mod section;
#[cfg(not(feature = "rooms"))]
mod stress;
#[cfg(feature = "rooms")]
pub mod stress;
pub mod study;
#[cfg(not(feature = "rooms"))]
mod verdict;
#[cfg(feature = "rooms")]
pub mod verdict;
#[cfg(not(feature = "rooms"))]
mod wall;
#[cfg(feature = "rooms")]
pub mod wall;

#[cfg(not(feature = "rooms"))]
use layload_solid::{field, mesh};
#[cfg(feature = "rooms")]
pub use layload_solid::{field, mesh};
use layload_solid::{numeric, units};

pub use engine::{DutyStep, Strokes};
pub use error::Error;
pub use field::FieldError;
pub use input::{BoresByHand, FileKind, Help, OwnFile, meant};
pub use kind::{CheckRequest, Checked, LoadedPart, Question, SpeedRange, Stage, Watcher};
pub use life::RollingElement;
pub use mesh::Triangles;
#[cfg(feature = "rooms")]
pub use part::fitting_units;
pub use part::{PartKind, PartWord};
pub use question::{
    CaseResult, LoggedRun, PART_COUNTS, PartSource, Record, Revision, SeenAt, SeenBreak, SizeRequest, Study,
    USUAL_DIRECTIONS, WallRequest, Walls, check, check_and_sweep, check_with, compare, diagnose, directions, learn,
    load, load_triangles, places, plan, quick_look, record, size, sweep, walls,
};
#[cfg(feature = "rooms")]
pub use question::{DIRECTION_RANGE, of_kind, prepare};
pub use units::LengthUnit;
pub use verdict::{FieldRequest, Mode, State};
