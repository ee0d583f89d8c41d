//! Temperatures of rod and crown against closed forms.

use std::error::Error;

mod carslaw_jaeger;
pub(crate) mod crown_fact;
mod crown_layers;
mod film;
mod fin_steady;
mod fin_transient;
mod hysteresis;
mod rod_example;
mod runaway;
mod swing;
mod table;

type Tested = Result<(), Box<dyn Error>>;
