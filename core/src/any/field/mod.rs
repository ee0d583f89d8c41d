//! The stress field of a part of any kind over its duty.
//!
//! One [`FieldModel`](crate::field::FieldModel) of the part as printed is solved for unit cases: every load that is no pin's, and
//! pressures of 1 Pa on bands of angle all round each bore that a pin presses. Held by more than pins the part stands on springs
//! as stiff as metal; else it floats, each case balanced by its own inertia, and what holding pins have to bear follows from that
//! the middle of their bores stays where it is. At each moment of the history one small contact problem over all bands finds how
//! the pins, rigid, round and without friction, press their bores ([`contact`]): with the part bent by the other loads, and all
//! pins together where several hold it. The stress at every point is then a sum of cases.
//!
//! Left out: stiffness that warmth changes from place to place, stress of uneven warmth, friction, bending of pins.

mod bands;
mod cases;
mod contact;
mod descent;
mod judge;
mod spots;
mod spread;
mod states;

pub(crate) use cases::AnyField;
pub(crate) use judge::{Judge, Points, With};
pub(crate) use spots::{AnyFindings, Spot, candidates, findings};
pub(crate) use states::{Driven, Run};
