//! How hot a rod and a crown get.
//!
//! **Rod.** A [`Fin`]: conduction along the rod, a film of air round it, the pins at its ends, and **hysteresis heat**
//! made where stress goes to and fro. Heat per volume grows as the plastic warms, because it softens; a rod that finds
//! no steady state **runs away**. **Crown.** A [`Wall`] of layers from gas side to back side in transient conduction,
//! driven by the **mean film** of the gas over a cycle; the **softened depth** is how far the softening temperature has
//! gone into the plastic.
//!
//! Both are rows of finite volumes that keep heat exactly; a [`HeatBalance`] shows it. SI throughout: m, s, W, K.

mod balance;
mod chain;
mod cooling;
mod crown;
mod error;
mod fin;
mod gas_film;
mod hysteresis;
mod onset;
mod steady;
mod swing;
mod table;
mod transient;
mod wall;

pub use balance::HeatBalance;
pub use chain::ChainEnd;
pub use cooling::{bore_conductance, crossflow_film};
pub use crown::{CrownStep, SoftenedDepth, WallRun};
pub use error::HeatError;
pub use fin::{Fin, FinCooling, FinMaterial, FinStation};
pub use gas_film::{Film, GasFilm, hohenberg, woschni};
pub use hysteresis::{Harmonic, Harmonics, SectionLoop, hysteresis_heat, loop_strength, loss_compliance};
pub use onset::onset;
pub use steady::SteadyHeat;
pub use swing::surface_swing;
pub use table::TemperatureTable;
pub use transient::{FinRun, StepPace};
pub use wall::{Joint, Wall, WallLayer};
