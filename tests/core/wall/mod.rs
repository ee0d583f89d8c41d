//! Wall thickness against closed forms of known solids, thin regions, their places, and steps of area.

#![allow(clippy::pedantic, clippy::useless_conversion, clippy::manual_midpoint)]

use std::error::Error;

mod invariance;
mod place;
mod region;
mod rods;
mod solids;
mod step;
mod thickness;

type Tested = Result<(), Box<dyn Error>>;
