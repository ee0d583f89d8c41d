mod build;
mod fits;
mod notes;
mod pins;
mod thin;

pub(crate) use build::{
    Parts, build, founding, left_out, life_of, mending, mode, of_card, point_mm, printed, speeds, temperature_from,
    turns_per_second, warnings,
};
pub(crate) use notes::{SINGLE_BEAD, UNTOLD, at_corner};
