//! What the engine does to its parts: motion, gas pressure and duty.
//!
//! **Plane of the engine.** Two axes with the origin on the crank's axis: *u* along the cylinder axis toward the
//! head, *w* to the side. The **crank angle** t turns from u toward w, so the crank pin of **throw** r sits at
//! (r cos t, r sin t). The piston pin, the **small end** of the rod, moves on the line w = e, where e is the
//! **pin offset**; with e = 0 the crank angle 0 is top dead centre. With an offset the piston stands highest at
//! sin t = e / (L + r), a little away from 0, because rod and throw are then in one line
//! ([`SliderCrank::top_angle_rad`]).
//!
//! **Cycle.** 360 degrees of crank for a two-stroke, 720 for a four-stroke ([`Strokes`]). Angle 0 of the cycle is
//! always the *firing* top dead centre, so a four-stroke expands over 0..180, pushes out over 180..360, draws in
//! over 360..540 and compresses over 540..720 degrees.
//!
//! **Pressure** is absolute. A [`PressureTrace`] samples it at equal crank steps; it comes from the cycle model
//! [`GasCycle`], from a measured table of crank angle and pressure, or from the cycle model brought to a stated
//! peak pressure; how peaks differ from cycle to cycle is [`Peaks`]. **Throttle** is 0 (closed) to 1 (open). A **duty** is the list of speeds, throttles and times
//! that the engine repeats.
//!
//! Lengths in m, angles in rad, pressure in Pa, temperature in K, energy in J; the few fields meant for an outer
//! edge say so in their names (`rpm`).

mod closed;
mod crank;
mod cylinder;
mod duty;
mod error;
mod exchange;
mod gas;
mod gather;
mod peaks;
mod pressure;
mod stated_peak;
mod table;
mod temperature;

pub use crank::{CrankState, SliderCrank};
pub use cylinder::Cylinder;
pub use duty::{Duty, DutyStep};
pub use error::{CrankError, CylinderError, DutyError, GasError, PressureError};
pub use exchange::{GasExchange, Strokes};
pub use gas::{GasCycle, GasRun};
pub use gather::Nearness;
pub use peaks::{Knock, PeakClass, Peaks};
pub use pressure::{DEFAULT_SAMPLES, Peak, PressureTrace, SAMPLE_LIMIT};
pub use temperature::GasTemperature;
