//! From a closed body to a part whose features have names.
//!
//! A **bore** is a round hole found from its facets: one axis with one or more coaxial **seats** of different diameter
//! (a bearing seat and its shoulder). A **rod** has two parallel bores that span it; the smaller is the **small end**.

mod axes;
mod bore;
mod circle;
mod error;
mod frame;
mod rod;
mod search;

pub use bore::{Bore, Seat};
pub use error::PartError;
pub use frame::Frame;
pub use rod::{Eye, GivenBore, GivenRod, LeftOut, Rod, find_rod};
pub use search::BoreSearch;
