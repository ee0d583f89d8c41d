//! The stress field of a whole part. (docs to come)

mod band;
mod bands;
mod clip;
mod coarsen;
mod conjugate;
mod element;
mod error;
mod grid;
mod held;
mod level;
mod lines;
mod load;
mod model;
mod moments;
mod multigrid;
mod number;
mod recover;
mod rigid;
mod stiffness;
mod support;
mod surface;
mod voxels;

pub use conjugate::{Accuracy, History};
pub use error::FieldError;
pub use grid::{CELLS_RANGE, Grid};
pub use held::{ContactPoint, HeldModel, Solution};
pub use load::{ForceField, Load};
pub use model::FieldModel;
pub use recover::{Strains, SurfaceForce, tensor};
pub use stiffness::Stiffness;
pub use support::{Hold, Support};
pub use voxels::Voxels;
