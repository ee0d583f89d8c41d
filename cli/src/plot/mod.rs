//! Line plots as SVG, all in one style, light on a dark page and dark on a light one.
//!
//! A [`Chart`] is panels above each other over one axis; it knows no part and no engine. Equal input gives equal bytes.

mod axis;
mod chart;
mod svg;
pub(crate) mod ticks;

pub(crate) use axis::Axis;
pub(crate) use chart::{Band, Chart, Level, Line, Panel, Point, Span};
pub(crate) use svg::chart_svg;
