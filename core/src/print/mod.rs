//! How the part is printed, and what that makes of a section: solid walls and skins round a lighter inside.

mod bands;
mod pace;
mod settings;

pub use bands::{Makeup, makeup};
pub use pace::Pace;
pub use settings::{PrintError, PrintSettings};
