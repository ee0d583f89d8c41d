mod file_kind;
mod meant;
mod toml_error;

pub use file_kind::FileKind;
pub use meant::meant;
pub(crate) use meant::meant_in;
pub(crate) use toml_error::told_of_toml;
