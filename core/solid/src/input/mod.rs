//! Files of users: what kind one is, what to do about a mistake.

mod file_kind;
mod help;

pub use file_kind::FileKind;
pub use help::{BoresByHand, Help, OwnFile};
