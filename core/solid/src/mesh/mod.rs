//! From the bytes of an STL file to closed, consistently oriented bodies.
//!
//! A **facet** is one triangle of the file, a **shell** a connected closed surface, a **body** the material bounded by
//! one or more shells: an outer surface with its inner voids, or several shells that overlap or touch.
//! Lengths are metres from here on.

mod across;
mod bodies;
mod cap;
mod edges;
mod error;
mod mass;
mod nearest;
mod pieces;
mod place;
mod shells;
mod solid;
mod stl;
mod touching;
mod turn;
mod weld;

pub use bodies::{Body, bodies, largest_first};
pub use error::MeshError;
pub use mass::MassProperties;
pub use pieces::{Laid, Meeting, SKIN};
pub use place::Place;
pub use solid::{Mended, Mesh};
pub use stl::Triangles;
