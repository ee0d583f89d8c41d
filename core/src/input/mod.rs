//! Words and files of users: names that were meant, kinds of file, what to do about a mistake.

mod file_kind;
mod help;
mod meant;
mod toml;

pub(crate) use self::toml::from_toml;
pub use file_kind::FileKind;
pub use help::{BoresByHand, Help, OwnFile};
pub use meant::meant;
pub(crate) use meant::meant_in;
