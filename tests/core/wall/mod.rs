//! Wall thickness against closed forms of known solids, thin regions, their places, and steps of area.

use std::error::Error;

mod invariance;
mod place;
mod region;
mod rods;
mod solids;
mod step;
mod thickness;

type Tested = Result<(), Box<dyn Error>>;
