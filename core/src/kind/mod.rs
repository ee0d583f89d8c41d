//! What every kind of part is handed and must answer.
//!
//! A [`Kind`] is a recognised part before there is a job. With a job it is [`Checkable`]; cut and driven it is [`Loaded`];
//! stressed and warmed at its duty it is [`Warm`]; held against its material it is [`Assessed`]. Every question is asked through
//! these five, so that a kind of part is a folder that answers them, and no question knows which kinds there are.

mod checkable;
mod further;
mod lying;
mod measures;
mod outcome;
mod part;
mod pose;
mod print_change;
mod question;
pub mod report;
mod request;
mod trial;
mod walled;
mod watcher;

pub use checkable::{Answers, Assessed, Checkable, Kind, Loaded, Warm};
pub use further::Changes;
pub(crate) use further::{Resized, changes_of, further};
pub use lying::Lying;
pub use measures::{Measures, Sizes};
pub(crate) use outcome::{ChangeOutcome, ChangeWords, LESS_PRESSURE, leaned, less_pressure, moved};
pub use part::LoadedPart;
pub(crate) use pose::facet_values;
pub use pose::posed_in;
pub(crate) use print_change::PrintChange;
pub use question::Question;
pub use request::{CheckRequest, Checked, SpeedRange};
pub use trial::{Correction, Trial, Trials};
pub(crate) use trial::{Kept, print_key};
pub use walled::Walled;
pub use watcher::{Stage, Watcher, stage};
