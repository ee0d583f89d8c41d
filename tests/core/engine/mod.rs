//! Motion, pressure and duty against closed forms and against a second way of computing the same.

use std::error::Error;

mod crank_errors;
mod crank_motion;
mod cylinder;
mod duty;
mod first_law;
mod gas_errors;
mod gas_temperature;
pub(crate) mod otto;
mod peaks;
mod pressure_table;
mod pressure_trace;
mod stated_peak;

type Tested = Result<(), Box<dyn Error>>;
