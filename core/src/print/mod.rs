//! How the part is printed, and what that makes of a section: solid walls and skins round a lighter inside.

mod bands;
mod pace;
mod settings;
mod warmth;

pub use bands::{Makeup, makeup};
pub use pace::Pace;
pub use settings::{PrintError, PrintSettings};
pub use warmth::PrintWarmth;
