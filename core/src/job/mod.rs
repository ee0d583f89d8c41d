//! What the user asks: engine, print, material, duty; in the units of the trade.
//!
//! A [`Job`] is the file as written, every field optional that has a usual value. [`Scenario`] is the same in SI units
//! with nothing missing, together with the list of what was taken where the job is silent.

mod assumption;
mod cap;
mod error;
mod file;
mod given;
mod key;
mod piston;
mod plausible;
mod pressures;
mod resolve;
mod ring;
mod scenario;

pub use assumption::{Assumption, Origin, Quantity};
pub use cap::{Cap, CapTable};
pub use error::JobError;
pub use file::{
    BuildDirection, DutyTable, EngineTable, EyeTable, FatigueRule, GasTable, GrooveTable, Job, MaterialTable,
    ModelTable, NamedPose, PartTable, PistonBodyTable, PrintTable, SurroundingsTable,
};
pub(crate) use given::given_part;
pub use piston::{CrownLayer, CylinderMetal, LayerTable, PistonScenario, PistonTable, Underside, resolve_piston};
pub use plausible::{Warning, numbers_with_a_row};
pub(crate) use pressures::Pressures;
pub(crate) use resolve::BUILD_DIRECTION;
pub use resolve::{resolve, resolve_pace, resolve_print};
pub use ring::{Rating, Ring, RingMetal, RingTable};
pub use scenario::{EndFits, EndFixity, EngineScenario, PartTemperature, PrintPose, Scenario, Surroundings};
