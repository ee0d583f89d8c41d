//! What of a report or card is drawn, as charts: one file a figure.

mod along;
mod bond;
mod changes;
mod compare;
mod crank;
mod crown;
mod directions;
mod fatigue;
mod fit;
mod life;
mod part;
mod places;
mod size;
mod sweep;

pub(crate) use along::along;
pub(crate) use bond::bond;
pub(crate) use changes::changes;
pub(crate) use compare::compare;
pub(crate) use crank::crank;
pub(crate) use crown::crown;
pub(crate) use directions::{built, directions};
pub(crate) use fatigue::fatigue;
pub(crate) use fit::fit;
pub(crate) use life::life;
pub(crate) use part::part;
pub(crate) use places::{Place, number_of, places};
pub(crate) use size::size;
pub(crate) use sweep::sweep;
