//! Forces in the rod at every crank angle.
//!
//! The rod is one rigid body with the mass distribution of its mesh. At each crank angle its plane motion fixes the pin
//! forces and, cut by cut, the **axial force** N (tension positive), the **shear force** V and the **bending moments**
//! at every plane: the whip of the shank is part of it, no masses are lumped at the ends.
//!
//! Everything is linear in the gas force and in the square of the speed, so the [`LoadBasis`] of a pressure trace is
//! computed once and combined for any speed.

mod basis;
mod cycle;
mod drive;
mod force;
mod lumped;
mod piston;
mod rod_mass;

pub use basis::LoadBasis;
pub use cycle::{CycleForces, SectionForces};
pub(crate) use drive::{Drive, TERMS};
pub use force::{PinForce, SectionForce};
pub use lumped::{TwoMass, two_mass_pin_forces};
pub use piston::{PistonBasis, PistonForce, PistonMass};
pub use rod_mass::RodMass;
