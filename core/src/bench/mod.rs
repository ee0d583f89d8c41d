//! What runs on the bench teach.
//!
//! A **bench log** is one run a line. Two factors are learned for a **family** of parts: one on **strength**, one on
//! **life**, both on the scale of logarithms. The **prior** is what the material card leaves open; runs that failed and
//! runs that were survived (right-censored) turn it into the **posterior**.

mod entry;
mod error;
mod learned;
mod update;

pub use entry::{BenchEntry, RunOutcome, read_log};
pub use error::BenchError;
#[cfg(feature = "rooms")]
pub use learned::Learned;
#[cfg(not(feature = "rooms"))]
pub(crate) use learned::Learned;
pub(crate) use learned::scaled;
#[cfg(feature = "rooms")]
pub use update::{Belief, Evidence, Outcome, conjugate, on_grid, updated};
#[cfg(not(feature = "rooms"))]
pub(crate) use update::{Belief, Evidence, Outcome, conjugate, on_grid, updated};
