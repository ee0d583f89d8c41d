//! What of a report or card is drawn, as charts: one file a figure.

mod fatigue;
mod sweep;

pub(crate) use fatigue::fatigue;
pub(crate) use sweep::sweep;
