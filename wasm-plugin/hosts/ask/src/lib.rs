//! Questions to `layload` as JSON text, answers with the JSON of the command line: what bindings to other languages share.
//!
//! A [`Job`] says what the engine does and how the part is printed. A [`Part`] is read once and asked often, by [`ask`] and
//! [`compare`]. A question is JSON such as `{"question": "check", "cells": 20000}`; see [`Question`]. What gives no answer is
//! a [`Refusal`] with a code, a key of the job, a sentence and what to do.
//!
//! ```
//! use layload_ask::{Job, Part, ask};
//!
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../samples/");
//! let job = Job::from_text(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
//! let mut progress = |stage: &str, share: f64| {
//!     println!("{:3.0} %: {stage}", 100.0 * share);
//!     true
//! };
//! let part = Part::from_stl(&std::fs::read(format!("{samples}plain_rod.stl"))?, &job, &mut progress)?;
//! let answer = ask(&part, &job, r#"{"question": "check", "quick": true}"#, &mut progress)?;
//! assert!(answer.json().starts_with("{\n"));
//! # Ok(())
//! # }
//! ```

#![forbid(unsafe_code)]

mod answer;
pub mod help;
mod job;
mod part;
mod progress;
mod question;
mod refusal;
mod words;

pub use answer::{Answer, Painted, ask, compare};
pub use job::{Job, NamedFile, Purpose};
pub use layload_core::Triangles;
pub use part::Part;
pub use progress::Progress;
pub use question::Question;
pub use refusal::Refusal;

/// Version of this program.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");
