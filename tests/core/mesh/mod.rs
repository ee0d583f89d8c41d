//! From bytes to closed bodies: what is read, what is mended, what is refused, and what is measured.

use std::error::Error;

pub(crate) mod files;
pub(crate) mod shapes;
pub(crate) mod stl;

mod ascii_forms;
mod ascii_refused;
mod binary_forms;
mod bodies;
mod coordinates_refused;
mod corpus;
mod damaged_bytes;
mod degenerate_facets;
pub(crate) mod exact_solids;
mod holes;
mod length_refused;
mod reader_against_stl_io;
mod sphere;
mod surface_refused;
pub(crate) mod trimesh_mass;
mod turned;
mod units;
mod welding;

pub(crate) type Tested = Result<(), Box<dyn Error>>;
