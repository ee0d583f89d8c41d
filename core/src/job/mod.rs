//! What the user asks: engine, print, material, duty; in the units of the trade.
//!
//! A [`Job`] is the file as written, every field optional that has a usual value. A `Scenario` is the same in SI units
//! with nothing missing, together with the list of what was taken where the job is silent.

mod assumption;
mod cap;
mod engine;
mod error;
mod file;
mod given;
mod key;
mod piston;
mod places;
mod plausible;
mod pressures;
mod resolve;
mod ring;
mod runs;
mod scenario;

pub use assumption::{Assumption, Origin, Quantity};
#[cfg(feature = "rooms")]
pub use cap::Cap;
#[cfg(not(feature = "rooms"))]
pub(crate) use cap::Cap;
pub use cap::CapTable;
pub use error::JobError;
pub use file::{
    BuildDirection, DutyTable, EngineTable, EyeTable, FatigueRule, GasTable, GrooveTable, Job, MaterialTable,
    ModelTable, NamedPose, PartTable, PistonBodyTable, PrintTable, SurroundingsTable,
};
pub(crate) use given::given_part;
#[cfg(feature = "rooms")]
pub use piston::{CrownLayer, CylinderMetal, PistonScenario, Underside, resolve_piston};
#[cfg(not(feature = "rooms"))]
pub(crate) use piston::{CrownLayer, CylinderMetal, PistonScenario, Underside, resolve_piston};
pub use piston::{LayerTable, PistonTable};
pub use places::{
    BoreTable, FaceTable, HistoryTable, HoldTable, HoldWord, LoadTable, PlaceError, PlaceName, PlaceTable, SpinTable,
    WarmTable,
};
pub(crate) use places::{
    Every, HeldAs, LoadKind, PlaceShape, PlaceWanted, PlacesScenario, WarmScenario, resolve_places,
};
#[cfg(feature = "rooms")]
pub use plausible::{Warning, numbers_with_a_row};
#[cfg(not(feature = "rooms"))]
pub(crate) use plausible::{Warning, numbers_with_a_row};
pub(crate) use pressures::{CyclePressure, Pressures};
pub(crate) use resolve::{BUILD_DIRECTION, MATERIAL, MOISTURE, PRESSURE_TABLE, RUNS, STROKES};
#[cfg(feature = "rooms")]
pub use resolve::{resolve, resolve_pace, resolve_print};
#[cfg(not(feature = "rooms"))]
pub(crate) use resolve::{resolve, resolve_pace, resolve_print};
#[cfg(feature = "rooms")]
pub use ring::{Rating, Ring};
#[cfg(not(feature = "rooms"))]
pub(crate) use ring::{Rating, Ring};
pub use ring::{RingMetal, RingTable};
pub use runs::Runs;
#[cfg(feature = "rooms")]
pub use scenario::{EndFits, EndFixity, EngineScenario, PartTemperature, PrintPose, Scenario, Surroundings};
#[cfg(not(feature = "rooms"))]
pub(crate) use scenario::{EndFits, EndFixity, EngineScenario, PartTemperature, PrintPose, Scenario, Surroundings};
