//! What of a report or card is drawn, as charts: one file a figure.

mod compare;
mod fatigue;
mod fit;
mod size;
mod sweep;

pub(crate) use compare::compare;
pub(crate) use fatigue::fatigue;
pub(crate) use fit::fit;
pub(crate) use size::size;
pub(crate) use sweep::sweep;
