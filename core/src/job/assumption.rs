use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::material::Source;

/// Where a number of the report comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Origin {
    /// Said by the user: job file or option.
    Given,
    /// Measured on the mesh.
    Mesh,
    /// Test pieces.
    Coupon,
    /// A paper, standard or handbook.
    Published,
    /// Tests of like plastics.
    Pooled,
    /// Accepted in the trade.
    CommonPractice,
    /// Recalled.
    Memory,
}

impl Origin {
    /// The word used in text output.
    pub fn word(self) -> &'static str {
        match self {
            Self::Given => "given",
            Self::Mesh => "mesh",
            Self::Coupon => Source::Coupon.word(),
            Self::Published => Source::Published.word(),
            Self::Pooled => Source::Pooled.word(),
            Self::CommonPractice => Source::CommonPractice.word(),
            Self::Memory => Source::Memory.word(),
        }
    }
}

impl From<Source> for Origin {
    fn from(source: Source) -> Self {
        match source {
            Source::Coupon => Self::Coupon,
            Source::Published => Self::Published,
            Source::Pooled => Self::Pooled,
            Source::CommonPractice => Self::CommonPractice,
            Source::Memory => Self::Memory,
        }
    }
}

/// A number or a word.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
pub enum Quantity {
    /// A number in the unit beside it.
    Number(f64),
    /// A word.
    Word(String),
}

/// One thing the answer rests on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Assumption {
    /// What it is.
    pub name: String,
    /// Its key in the job file, without the table where that is clear; empty where it has none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub key: String,
    /// How much.
    pub value: Quantity,
    /// Unit, `1` for pure numbers, empty for words.
    pub unit: String,
    /// Where it comes from.
    pub source: Origin,
    /// DOI, standard, formula or condition behind it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reference: Option<String>,
}

impl Assumption {
    /// A number with its unit.
    pub fn number(name: &str, value: f64, unit: &str, source: Origin) -> Self {
        Self {
            name: name.into(),
            key: String::new(),
            value: Quantity::Number(value),
            unit: unit.into(),
            source,
            reference: None,
        }
    }

    /// A word.
    pub fn word(name: &str, value: &str, source: Origin) -> Self {
        Self {
            name: name.into(),
            key: String::new(),
            value: Quantity::Word(value.into()),
            unit: String::new(),
            source,
            reference: None,
        }
    }

    /// With its key in the job file.
    #[must_use]
    pub fn keyed(self, key: &str) -> Self {
        Self { key: key.into(), ..self }
    }

    /// With a reference.
    #[must_use]
    pub fn citing(self, reference: &str) -> Self {
        Self { reference: Some(reference.into()), ..self }
    }
}
