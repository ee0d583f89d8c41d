//! A part of any kind as a job says it: places, what holds it there, what loads it, how the loads run, how warm it is.

mod error;
mod history;
mod name;
mod resolve;
mod table;

pub use error::PlaceError;
pub(crate) use history::Every;
pub use name::PlaceName;
pub(crate) use resolve::{HeldAs, LoadKind, PlaceShape, PlaceWanted, PlacesScenario, WarmScenario, resolve_places};
pub use table::{BoreTable, FaceTable, HistoryTable, HoldTable, HoldWord, LoadTable, PlaceTable, SpinTable, WarmTable};
