//! The stress field of a rod over its duty: what sections and handbook factors do not see.
//!
//! One [`FieldModel`](crate::field::FieldModel) of the rod as printed is solved for unit cases: pressures of a pin at
//! narrow bands of angle round each bore, a side push at each bore, the rod's own turning, the warmth of the duty. The
//! rod floats; every case is balanced by its own inertia ([`InertiaRelief`](crate::field::InertiaRelief)), so that pin
//! forces alone bring the true acceleration with them. At each crank angle a small contact problem over the bands
//! ([`contact`]) finds how the pin, with the clearance of the job, presses its bore; the stress at every point of the
//! surface is then a sum of cases, and what running does to it is counted as for any other point. The worst places of
//! each region are seen once more with finer cells at their worst moment ([`Zoom`](crate::field::Zoom)); their stress at
//! all other moments is scaled by as much as their use of strength then. At a sharp inner corner, where the stress has no bound,
//! it is taken at half the material's critical distance below
//! ([`CRITICAL_DISTANCE`](crate::material::CRITICAL_DISTANCE); point method, Taylor 2007), in windows whose cells are small
//! beside that.
//!
//! A stress over the cycle is counted along one line through stress space, with the sign of the worst stress: a pull, a push
//! or a shear along the layers. Means count as far as it is a pull or a push; a mean shear does not (Smith 1942).
//!
//! Left out: friction, bending and tilt of the pin (pressure is even along it), and how the centrifugal force ovals the
//! bore before the pin meets it. A pin's side force, small beside the force along the rod, goes in as the sine of the
//! angle. Where a bore is pressed, the crushing of the plastic under the pin is left to the mode for pin pressure.

mod below;
mod bore;
mod by_stress;
mod closer;
mod contact;
mod corners;
mod findings;
mod gather;
mod lays;
mod path;
mod pin;
mod points;
mod request;
mod search;
mod solved;
mod warmth;

pub(crate) use crate::field::{BANDS, BoreSeat, PinnedBore, combined};
pub(crate) use by_stress::{ROUNDS, SAME, by_stress};
pub use findings::{FieldFindings, FieldSpot, Moment};
pub(crate) use lays::lays;
pub(crate) use path::{Angles, Path, States};
pub(crate) use pin::{PinCases, SolvedBore};
pub use request::FieldRequest;
pub(crate) use search::{Found, Judged, Judging, search};
pub use solved::FieldCase;
pub(crate) use solved::{Acting, Pressing, SolvedCases, Solving, UnitCase};
pub(crate) use warmth::Warmth;
