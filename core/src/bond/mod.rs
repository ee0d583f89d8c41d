//! The bond between layers as this print makes it.
//!
//! Layers of one spool bond three to five times better or worse with the temperature of the layer below. From the mesh, its
//! pose and the settings of the print follow the **layer time** of every height, from that the temperature of the column
//! below, and from that how far each interface **heals** before it is too cold. The card's strength across layers stands for
//! one print, five bars of 10 x 4 mm that stand upright on one bed, by the usual settings of the plastic; the **bond factor** is the
//! strength of this print over that one.

mod column;
mod healing;
mod layers;
mod profile;
mod quick;

pub use column::LayerColumn;
pub use healing::Healing;
pub use layers::{Layer, layers};
pub use profile::{Bond, BondAt};
pub use quick::QuickBond;
