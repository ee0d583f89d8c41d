//! Words and files of users: names that were meant, TOML, and from the solid kinds of file and what to do about a mistake.

mod meant;
mod toml;

pub(crate) use self::toml::from_toml;
pub use layload_solid::input::{BoresByHand, FileKind, Help, OwnFile};
pub use meant::meant;
pub(crate) use meant::meant_in;
