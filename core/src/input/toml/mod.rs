//! Reading of jobs, cards and studies: TOML into plain types, and what is told where that fails.
//!
//! The text is parsed by `toml`. Its own way from there into types compiles every table five times over, as a date, a value
//! with its place and a list too, which was a twelfth of the plugin; `value` compiles it once and says in words what is wanted.

mod fault;
mod value;

use serde::de::DeserializeOwned;
use toml::de::{DeTable, DeValue};

use fault::Fault;
use value::Reading;

/// Reads a type from a text.
///
/// # Errors
///
/// Where the text is no TOML, or not what the type wants: the line with a mark under what is wrong, and a sentence.
pub(crate) fn from_toml<T: DeserializeOwned>(text: &str) -> Result<T, String> {
    let table = DeTable::parse(text).map_err(|error| Fault::of_text(&error).told(text))?;
    let span = table.span();
    T::deserialize(Reading { value: DeValue::Table(table.into_inner()), span }).map_err(|fault| fault.told(text))
}
