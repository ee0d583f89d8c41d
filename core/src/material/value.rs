use serde::{Deserialize, Serialize};

use super::source::Source;

/// One number of a material card with where it comes from. The unit is in the name of the field that holds it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Value {
    /// The number.
    pub value: f64,
    /// How well it is founded.
    pub source: Source,
    /// DOI, standard or handbook behind a published value.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reference: Option<String>,
    /// Relative standard uncertainty; the source's usual one where absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spread: Option<f64>,
    /// Conditions of the test, or how the number was derived.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

impl Value {
    /// Relative standard uncertainty of this number.
    pub fn relative_spread(&self) -> f64 {
        self.spread.unwrap_or_else(|| self.source.usual_spread())
    }
}
