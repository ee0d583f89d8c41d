//! Cuts of the part square to its load path.
//!
//! A **station** is a plane at one position along the line of centres, its **section** the material cut there.
//! Plane coordinates are `y` and `z` of the part's frame. A **slab** is the material between neighbouring planes.

mod cut;
mod ligament;
mod moments;
mod outline;
mod placement;
mod properties;
mod settled;
mod slabs;
mod union;

pub use cut::{Section, sections};
pub use ligament::{Ligament, narrowest};
pub use moments::VolumeMoments;
pub(crate) use outline::within;
pub use placement::planes;
pub use properties::{AreaProperties, Loop};
pub use settled::settled_sections;
pub(crate) use settled::{beyond_faces, hair};
pub use slabs::{slab_moments, slab_moments_from_sections};
pub(crate) use union::ending;
