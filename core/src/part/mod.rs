//! From a closed body to a part whose features have names.
//!
//! A **bore** is a round hole found from its facets: one axis with one or more coaxial **seats** of different diameter
//! (a bearing seat and its shoulder). A **rod** has two parallel bores that span it; the smaller is the **small end**. A
//! **piston** is a round body closed at one side, its **crown**, with a **pin bore** across it and **ring grooves** round
//! it.

mod any;
mod assembly;
mod axes;
mod bore;
mod cap;
mod chords;
mod circle;
mod ends;
mod error;
mod fitting;
mod frame;
mod kind;
mod left_out;
mod named;
mod piston;
mod profile;
mod rod;
mod search;
mod shape;
mod side_by_side;
mod slopes;
mod thickness;
mod through;
mod view;
mod votes;

pub use any::{AnyPart, FlatFace};
pub(crate) use any::{joined, measured};
pub(crate) use bore::sides;
pub use bore::{Bore, Seat};
pub use ends::Naming;
pub use error::PartError;
pub use fitting::fitting_units;
pub use frame::Frame;
pub use kind::{GivenPart, Part, PartKind, PartWord, find_part};
pub use left_out::{LeftOut, Role};
pub use piston::{
    AxisRays, Boss, Collar, GivenGroove, GivenPiston, Groove, PinBore, Piston, PistonDoubt, Skirt, Span, disc_points,
    find_piston,
};
pub use rod::{Eye, GivenBore, GivenRod, Rod, find_rod};
pub use search::BoreSearch;
pub use thickness::ThicknessFactors;
