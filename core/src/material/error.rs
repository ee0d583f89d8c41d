use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

use crate::input::{Help, meant};

/// Why a material card cannot be used.
#[derive(Debug, Clone, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "material-")]
#[non_exhaustive]
pub enum MaterialError {
    /// No embedded card has this name.
    #[error("there is no material named `{name}`")]
    Unknown {
        /// The name asked for.
        name: String,
        /// The names there are.
        known: Vec<String>,
    },
    /// The text of a card is not in the format.
    #[error("the material card cannot be read: {reason}")]
    Format {
        /// What the reader of the format says.
        reason: String,
    },
    /// A number of a card makes no sense.
    #[error("material card `{card}`: {what} is {value}, which is not possible")]
    Implausible {
        /// Name of the card.
        card: String,
        /// Which value.
        what: String,
        /// The value.
        value: f64,
    },
    /// A value of a card lies where only another unit can have brought it.
    #[error("material card `{card}`: {what} is {value}, outside {possible}")]
    Impossible {
        /// Name of the card.
        card: String,
        /// Which value.
        what: &'static str,
        /// The value with its unit.
        value: String,
        /// What is possible, with the unit.
        possible: String,
        /// What is usual, with the unit.
        usual: String,
    },
}

impl MaterialError {
    /// What the user can do about it.
    pub fn help(&self) -> Help {
        match self {
            Self::Unknown { name, known } => {
                let nearest = meant(name, known.iter().map(String::as_str));
                let nearest = nearest.map_or_else(String::new, |name| format!("did you mean {name}? "));
                format!("{nearest}known materials: {}", known.join(", ")).into()
            }
            Self::Format { .. } => Help::SeeCard,
            Self::Impossible { what, usual, .. } => {
                format!("check the {what} of the card and its unit; usual: {usual}").into()
            }
            Self::Implausible { .. } => {
                "strengths and stiffnesses are positive, ratios lie between 0 and 1, retention curves never rise".into()
            }
        }
    }
}
