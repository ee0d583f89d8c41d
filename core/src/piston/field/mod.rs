//! The stress field of a piston over its duty: what plates, rings and cuts do not see.
//!
//! One [`FieldModel`](crate::field::FieldModel) of the piston as printed, softer where it is warm, is solved for unit cases:
//! gas on the crown and top land, pressures of the pin at narrow bands round both bosses at once, its push to the side, the
//! cylinder's wall on either side of the skirt, uneven warmth. The piston floats; every case is balanced by its own inertia. At each crank
//! angle the pin, with the clearance of the job, presses its bore as in a rod's eye; the stress at every point of the surface
//! is then a sum of cases, held against the strength at the temperature there. The worst places are seen once more with
//! finer cells.
//!
//! Stress by heat is that of the end of the run, less what creep takes of it until then; what it took is there with the other
//! sign when the engine stands.
//!
//! Left out: bending of the pin, which crowds its pressure toward the middle of the piston; rings and what lies on the crown
//! as bodies of their own (their mass presses on the crown); friction. Which side of the file is the thrust side is not known: the piston is taken to turn from y to the
//! side as the crank does. Temperatures follow height alone; a skin so hot that its stiffness falls by half within two
//! cells is left to the plate of the sections, which follows it by depth.

mod cases;
mod faces;
mod judge;
mod raise;
mod spots;

pub use cases::PistonField;
pub use raise::PistonRaise;
pub(crate) use raise::{named, raised};
pub use spots::{OnPiston, PistonFieldFindings, PistonFieldSpot};
