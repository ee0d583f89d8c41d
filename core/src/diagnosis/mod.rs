//! Reading a break: from what was seen of it to what caused it.
//!
//! A **look** is what the eye finds on a broken part. What the model **expects** of a run says how likely each failure mode
//! ends it at that time and place; a table of **signs** says how often each look goes with each mode. Both together give how
//! likely each **cause** is, a cause that is none of the modes among them (Bayes). What of the inputs the break contradicts, and
//! the look that would tell the two likeliest causes apart, follow from the same numbers.

mod cause;
mod doubts;
mod error;
mod expected;
mod look;
mod next_look;
mod place;
mod remedy;
mod signs;

#[cfg(feature = "rooms")]
pub use cause::{Cause, causes};
#[cfg(not(feature = "rooms"))]
pub(crate) use cause::{Cause, causes};
pub(crate) use doubts::doubts;
pub use error::DiagnosisError;
#[cfg(feature = "rooms")]
pub use expected::{Expected, Scatter};
#[cfg(not(feature = "rooms"))]
pub(crate) use expected::{Expected, Scatter};
pub use look::Look;
#[cfg(feature = "rooms")]
pub use next_look::{NextLook, next_look};
#[cfg(not(feature = "rooms"))]
pub(crate) use next_look::{NextLook, next_look};
#[cfg(feature = "rooms")]
pub use place::{SeenPlace, region_of};
#[cfg(not(feature = "rooms"))]
pub(crate) use place::{SeenPlace, region_of};
pub(crate) use remedy::remedy;
#[cfg(feature = "rooms")]
pub use signs::{SOURCE, chance};
#[cfg(not(feature = "rooms"))]
pub(crate) use signs::{SOURCE, chance};

/// What was seen of a break and of its run.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Seen {
    /// What it looks like.
    pub looks: Vec<Look>,
    /// Where it is.
    pub place: Option<SeenPlace>,
    /// Running time at which it happened, s.
    pub seconds: Option<f64>,
}
