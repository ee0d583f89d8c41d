//! A mesh painted with one number per facet, as files other programs show: 3MF, PLY and a legend in SVG.
//!
//! Data flows one way: a [`Quantity`] says what the numbers are, a [`PaintedMesh`] joins it to checked points, facets
//! and values, a [`scale::ColorScale`] turns values into colours, and each writer returns the bytes of one file.
//! Equal input gives equal bytes.

mod error;
mod legend;
mod mesh;
mod package;
mod path;
mod ply;
mod quantity;
pub(crate) mod scale;
mod three_mf;
mod words;

pub use error::PaintError;
pub use legend::legend_svg;
pub use mesh::PaintedMesh;
pub use ply::ply;
pub use quantity::{BadEnd, Quantity};
pub use three_mf::three_mf;
