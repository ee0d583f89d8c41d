//! What of a report is drawn, as charts: one file a figure.

mod sweep;

pub(crate) use sweep::sweep;
