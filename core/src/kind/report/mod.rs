//! What the reports of all kinds of part have in common, filled from the law they share.

mod card;
mod common;
mod crank;
mod effects;
mod field;
mod life;
mod mesh;
mod notes;
mod printed;
mod verdict;

pub(crate) use card::of_card;
pub use common::Common;
pub(crate) use crank::{bar, fastest, rows};
pub(crate) use effects::{effect, peaks, shared};
pub(crate) use field::{FieldTold, LESS, by_layers};
pub use life::life_of;
pub(crate) use mesh::{coarse, left_out, mending, point_mm};
pub(crate) use notes::{SINGLE_BEAD, UNTOLD, at_corners, few_cells, few_sides};
pub(crate) use printed::printed;
pub use printed::temperature_from;
pub(crate) use verdict::{VerdictOf, mode, uncertainty, warnings};
