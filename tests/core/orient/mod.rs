//! Which way up: sphere, support, strength by direction, choice.

mod bar;
mod names;
mod pistons;
mod pose;
mod recommended;
mod sphere;
mod turned;

pub(crate) use super::mesh::Tested;
