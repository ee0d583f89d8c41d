//! Wall thickness against closed forms of known solids, thin regions, their places, and steps of area.

use std::error::Error;

mod copies;
mod edges;
mod invariance;
mod place;
mod region;
mod rods;
mod shells;
mod solids;
mod step;
mod thickness;

type Tested = Result<(), Box<dyn Error>>;
