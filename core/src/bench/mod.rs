//! What runs on the bench teach.
//!
//! A **bench log** is one run a line. Two factors are learned for a **family** of parts: one on **strength**, one on
//! **life**, both on the scale of logarithms. The **prior** is what the material card leaves open; runs that failed and
//! runs that were survived (right-censored) turn it into the **posterior**. Where a run's failure mode is known, the strengths
//! of beads, of the bond between layers and against pressing are learned each by its own.

mod by_mode;
mod entry;
mod error;
mod learned;
mod quantity;
mod update;

pub(crate) use by_mode::life_power;
#[cfg(feature = "rooms")]
pub use by_mode::{ByQuantity, ModeLife, ModeRun, by_mode};
#[cfg(not(feature = "rooms"))]
pub(crate) use by_mode::{ByQuantity, ModeLife, ModeRun, by_mode};
pub use entry::{BenchEntry, LogLines, RunOutcome, TakeBack, read_lines, read_log};
pub use error::BenchError;
#[cfg(feature = "rooms")]
pub use learned::Learned;
#[cfg(not(feature = "rooms"))]
pub(crate) use learned::Learned;
pub(crate) use learned::scaled;
#[cfg(feature = "rooms")]
pub use quantity::Quantity;
#[cfg(not(feature = "rooms"))]
pub(crate) use quantity::Quantity;
#[cfg(feature = "rooms")]
pub use update::{Belief, Evidence, Outcome, conjugate, on_grid, updated};
#[cfg(not(feature = "rooms"))]
pub(crate) use update::{Belief, Evidence, Outcome, conjugate, on_grid, updated};
