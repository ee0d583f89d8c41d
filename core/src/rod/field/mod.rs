//! The stress field of a rod over its duty: its unit cases, what presses its bores, how its places are judged.

mod cases;
mod duty;
mod judge;
mod pulled;
mod raise;
mod spots;

pub use cases::RodField;
pub use pulled::PinnedEye;
pub use raise::Raise;
pub(crate) use raise::{named, raised};
pub use spots::{OnRod, RodFieldFindings, RodFieldSpot};
