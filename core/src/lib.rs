//! Life of printed connecting rods from their own mesh.

#![forbid(unsafe_code)]

mod check;
mod direction;
pub mod engine;
mod error;
pub mod heat;
pub mod job;
pub mod life;
pub mod load;
pub mod material;
pub mod mesh;
pub mod part;
pub mod print;
pub mod report;
pub mod section;
pub mod stress;
mod threads;
pub mod verdict;
pub mod wall;

pub use check::{PreparedRod, Question, Stage, Watcher, check, prepare};
pub use error::Error;
