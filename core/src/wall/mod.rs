//! How thick the material is, and where it is too thin.
//!
//! The **thickness** at a point of the surface is the diameter of the largest sphere that touches the surface there
//! from inside and meets no facing wall; a **wall** is the material between two surfaces that face each other. A **thin
//! region** is a connected patch of wall below a limit, seen from both its sides but counted once.

mod ball;
mod contact;
mod covers;
mod crown;
mod edge;
mod knife;
mod limit;
mod map;
mod neighbours;
mod piece;
mod ray;
mod region;
mod sample;
mod step;
mod surface;
mod tree;

pub use ball::{WallThickness, thickness_all, thickness_at};
pub use crown::{Bridge, CrownMap, CrownSample, Hole};
pub use limit::{SOUND_BEADS, ThinReason, WallLimits};
pub use map::{FacetThickness, WallMap};
pub use region::{SharpEdge, ThinRegion, thin_regions};
pub use sample::{Sample, area_samples};
pub use step::{AreaStation, AreaStep, StepLimits, area_steps, shoulder_concentration};
pub use surface::{Shells, Surface};
