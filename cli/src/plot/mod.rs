//! Pictures as SVG, all in one style, light on a dark page and dark on a light one.
//!
//! A [`Chart`] is panels above each other over one axis, [`Bars`] are bars to both sides of a line, a [`Strip`] is one
//! scale with a stretch on it. They know no part and no engine. Each becomes a [`Picture`], which is a file of its own or
//! an element of a page. Equal input gives equal bytes.
//!
//! Written here: the plotting crates of the registry set fonts by the machine and have no words for readers who do not see.

mod axis;
mod bars;
mod chart;
mod picture;
mod strip;
mod svg;
pub(crate) mod ticks;

pub use axis::Axis;
pub(crate) use bars::{Bar, Bars};
pub use chart::{Band, Chart, Level, Line, Panel, Point, Span};
pub(crate) use picture::{LETTER, Pen, Picture, STYLE};
pub(crate) use strip::Strip;
pub use svg::chart_svg;
pub(crate) use svg::{Sheet, chart_picture};
