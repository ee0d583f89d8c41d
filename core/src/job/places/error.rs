use strum::{IntoStaticStr, VariantNames};
use thiserror::Error;

use crate::input::{Help, meant};

/// Why a part cannot be checked by its places, holds and loads.
#[derive(Debug, Clone, PartialEq, Error, IntoStaticStr, VariantNames)]
#[strum(serialize_all = "kebab-case", prefix = "place-")]
#[non_exhaustive]
pub enum PlaceError {
    /// A name that is none.
    #[error("`{name}` is no name of 1 to {most} bytes on one line")]
    Name {
        /// What was given.
        name: String,
        /// Most bytes.
        most: usize,
    },
    /// A name that stands for two things.
    #[error("two {what} are called `{name}`")]
    Twice {
        /// Places or loads.
        what: &'static str,
        /// Their name.
        name: String,
    },
    /// More entries than are kept.
    #[error("{count} {what} are more than the {most} that a part can have")]
    TooMany {
        /// Which entries.
        what: &'static str,
        /// How many there are.
        count: usize,
        /// Most.
        most: usize,
    },
    /// A name of a place that no place has.
    #[error("{who} is at `{name}`, which is no place of the job")]
    Unknown {
        /// The hold, load or warmth.
        who: String,
        /// The name.
        name: String,
        /// The names that there are.
        known: Vec<String>,
    },
    /// A place without a shape, or with two.
    #[error("the place `{name}` is said by {said}")]
    Shape {
        /// The place.
        name: String,
        /// What is wrong, in words.
        said: &'static str,
    },
    /// Nothing of the part's surface is there.
    #[error("the place `{name}` has no surface: there is no {wanted}; {near}")]
    NotFound {
        /// The place.
        name: String,
        /// What was looked for, in words.
        wanted: String,
        /// What was found near it, in words.
        near: String,
    },
    /// More than one bore or face is meant.
    #[error("the place `{name}` may be any of {count}: {list}")]
    Several {
        /// The place.
        name: String,
        /// How many.
        count: usize,
        /// Where they are, in words.
        list: String,
    },
    /// A hold or a load that its place cannot have.
    #[error("{who}, at `{place}`, {reason}")]
    NotThere {
        /// The hold or load.
        who: String,
        /// The place.
        place: String,
        /// Why not, in words.
        reason: String,
    },
    /// A load that says nothing, or two things.
    #[error("the load `{load}` {said}")]
    Load {
        /// The load.
        load: String,
        /// What is wrong, in words.
        said: &'static str,
    },
    /// Nothing loads the part.
    #[error("nothing loads the part: the job has no [[load]]")]
    NoLoad,
    /// Nothing holds the part.
    #[error("nothing holds the part: the job has no [[hold]]")]
    NoHold,
    /// Holds that leave the part free to move.
    #[error("the holds leave the part free: {motions}")]
    LeftFree {
        /// The motions that nothing holds, in words.
        motions: String,
    },
    /// Holds that cannot stand together.
    #[error("{reason}")]
    Together {
        /// Why not, in words.
        reason: String,
    },
    /// A load without its column in the history.
    #[error("the history has no column for the load `{load}`")]
    NoColumn {
        /// The load.
        load: String,
        /// The columns that it has.
        known: Vec<String>,
    },
    /// A column of the history that is no load.
    #[error("the history has a column `{column}`, which is no load of the job")]
    NoSuchLoad {
        /// The column.
        column: String,
        /// The loads there are.
        known: Vec<String>,
    },
    /// A history that makes no sense.
    #[error("the history cannot be read: {reason}")]
    History {
        /// What is wrong, in words.
        reason: String,
    },
    /// A pin that nothing of its bore can hold.
    #[error("the pin in `{place}` cannot be held by what there is of its bore: {reason}")]
    Pin {
        /// The place.
        place: String,
        /// Why not, in words.
        reason: String,
    },
}

impl PlaceError {
    /// The key of the job that it is about.
    pub fn key(&self) -> Option<&str> {
        Some(match self {
            Self::Shape { .. } | Self::NotFound { .. } | Self::Several { .. } => "place",
            Self::NoHold | Self::LeftFree { .. } | Self::Together { .. } => "hold",
            Self::NoLoad | Self::Load { .. } => "load",
            Self::NoColumn { .. } | Self::NoSuchLoad { .. } | Self::History { .. } => "history",
            _ => return None,
        })
    }

    /// What the user can do about it.
    pub fn help(&self) -> Help {
        match self {
            Self::Name { .. } => "give it a short name in quotes, for example \"pivot\"".into(),
            Self::Twice { .. } => "give each a name of its own".into(),
            Self::TooMany { .. } => "join those that are alike".into(),
            Self::Unknown { name, known, .. } => among("the places are", name, known),
            Self::Shape { .. } => {
                "say bore = { near_mm = [x, y, z], diameter_mm = d } or face = { near_mm = [x, y, z], within_deg = 15 }, in \
                 coordinates of the file"
                    .into()
            }
            Self::NotFound { .. } | Self::Several { .. } => {
                "list the bores and flat faces of the part; points are in millimetres of the file".into()
            }
            Self::NotThere { .. } => "give it another place or another direction".into(),
            Self::Load { .. } => {
                "give one of force_n, pressure_bar, moment_n_m, acceleration_m_s2 and spin; all but acceleration_m_s2 and spin \
                 have a place in at"
                    .into()
            }
            Self::NoLoad => "say what acts on it: [[load]] with name, at and force_n or another kind of load".into(),
            Self::NoHold => {
                "say what holds it: [[hold]] with at and as = \"glued\", \"flat\" or \"pin\"; or as = \"free\" for a part that \
                 only its own inertia balances"
                    .into()
            }
            Self::LeftFree { .. } => {
                "hold it at more places, or say as = \"free\" in a [[hold]] where its own inertia balances the rest".into()
            }
            Self::Together { .. } => "leave one of them out".into(),
            Self::NoColumn { load, known } => among("it has", load, known),
            Self::NoSuchLoad { column, known } => among("the loads are", column, known),
            Self::History { .. } => {
                "give angle_deg (crank angle) or seconds, rising from 0, and one list of the same length for each load under \
                 [history.loads]"
                    .into()
            }
            Self::Pin { .. } => "look at the direction of its force, or hold the part in another way".into(),
        }
    }
}

/// The name that was likely meant, and all that there are.
fn among(lead: &str, name: &str, known: &[String]) -> Help {
    let list = if known.is_empty() { "none".into() } else { known.join(", ") };
    match meant(name, known.iter().map(String::as_str)) {
        Some(meant) => format!("did you mean `{meant}`? {lead}: {list}").into(),
        None => format!("{lead}: {list}").into(),
    }
}
