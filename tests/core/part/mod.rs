//! From a closed body to a rod whose ends have names.

mod any_position;
mod by_hand;
mod choice;
mod damaged_hands;
mod few_sides;
mod fillers;
mod frames;
mod left_out;
pub(crate) mod made;
mod not_a_rod;
mod pieces;
mod piston;
mod piston_any_position;
mod piston_by_hand;
mod piston_signs;
mod piston_truth;
mod repaired;
mod seats;
mod thicker;
mod truth;
mod truth_files;
mod units;

use std::error::Error;

use layload_core::LengthUnit;
use layload_core::mesh::{Mesh, bodies};
use layload_core::part::{GivenRod, PartError, Rod, find_rod};

pub(crate) use super::mesh::Tested;

/// The rod in an STL file.
pub(crate) fn recognised(bytes: &[u8], unit: LengthUnit) -> Result<Result<Rod, PartError>, Box<dyn Error>> {
    let (mesh, _) = Mesh::from_stl(bytes, unit)?;
    Ok(find_rod(bodies(mesh)?, &GivenRod::default()))
}
