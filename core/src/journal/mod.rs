//! A bore of plastic that slides on its pin: pressure times speed, the heat of friction and the way it takes, wear.
//!
//! What the pin leaves in a bearing or a bush is no matter of the plastic and not looked at here.

mod heat;
mod sliding;
mod values;

pub use heat::{PinPath, Sink};
pub use sliding::Sliding;
pub use values::{JournalValues, Lubrication};
