//! The stress field of a whole part: where sections and handbook factors do not see, at fillets, blends, ribs and pockets.
//!
//! # Method
//!
//! - **Cells.** A box is divided into equal cells. What a closed surface cuts off each is integrated exactly, by the
//!   divergence theorem over pieces of facets ([`Voxels`]); no point is tested for being inside. Where shells overlap their
//!   union counts, along sampled lines in the few cells that two shells cross.
//! - **Stiffness.** One transversely isotropic material in any direction ([`Stiffness`]), softer in a lighter
//!   inside. Whole cells are trilinear with bending modes inside (Wilson, Taylor, Doherty & Ghaboussi 1973) and share one
//!   matrix. Cut cells have one each, integrated over what they hold: the surface is where it is, not stepped.
//! - **Solver.** Conjugate gradients in double precision over a matrix-free product; one pass over a hierarchy of grids in
//!   single precision as preconditioner, coarse grids by Galerkin's rule cell by cell, a Chebyshev smoother of the fourth
//!   kind over nodes (Lottes 2023), those that hang by slivers of material in clusters; grids from the second coarser one on
//!   are visited twice, the coarsest has a band factor. A node amid whole cells mixes its 27 neighbours to 14 sums first,
//!   and each step of smoother or gradients is done in one pass with its product, as vectors are what memory is slow at.
//!   Sums are taken in a fixed order, whatever the threads.
//! - **Supports** are springs on the true surface: clamps, guides, pressed rings, and pins that only push, whose touching
//!   points are found by solving again ([`Hold`]). A part without supports floats, and its loads have to be in balance.
//! - **Stress at the surface.** Strains of the cells round a point, those with little material weighing little, are fitted
//!   by a quadratic; where the force on the surface is known, strains in the surface are kept and the rest follows from
//!   that force ([`Strains::stress_at`]).
//! - **Finer cells where it counts.** A window round a place is cut out and solved again with cells a third as large, its
//!   cut faces moving as the solved part does ([`Zoom`]); a window of a window is cut the same way, as fillets need.
//! - **Mirrors.** A part that mirrors itself across a plane, under a load that does so too or is the reverse of its mirror
//!   image, is solved by half, with two planes by a quarter ([`FreeModel`]): what nodes in a plane may not do is set to
//!   nothing in every product. Odd and even parts of a load then never mix.
//! - **Many loads** on one part are solved eight at a time ([`HeldModel::solve_each`]): each matrix of a cut cell, which is
//!   what a product waits for, is read once for all of them.
//!
//! # Error, as `cargo run --release -p layload-core --features rooms --example field_convergence` prints it
//!
//! | solid | closed form | cells across | error of the stress |
//! |---|---|---|---|
//! | ring 2 : 1 under pressure (Lame), hoop stress inside | | 6 / 8 / 12 / 16 in the wall | -3.7 / -0.6 / +1.0 / +0.8 % (mean; single points to 2 % beside it) |
//! | the same, outside | | | -1.4 / -1.1 / -0.8 / -0.6 % |
//! | plate with a hole (Heywood), along the grid | 2.42 | 12 / 16 in the hole | -9.0 / -5.3 % |
//! | the same, at 17 degrees to the grid | | | -7.3 / -1.5 % |
//! | cantilever along the grid | M c / I | 2 / 8 in the depth | -0.2 / 0.0 % |
//! | the same, at 11 degrees | | 2 / 4 / 8 | -1.8 / 0.2 / 0.4 % |
//! | the same, at 45 degrees | | 2 / 4 / 8 / 12 | -10 / 0.7 / 1.4 / 1.8 % |
//! | plate, clamped and supported (Roark), in the middle | | 2 / 4 / 6 in the thickness | -1.0 / -0.4 / -0.2 % |
//! | turning disc (Timoshenko & Goodier), at the hole | | 12 / 16 / 24 in the hole | -3.3 / -1.9 / +1.7 % (worst point) |
//!
//! A plate with a hole, sixteen cells across it, and a window of finer cells at the worst place
//! (`cargo test -p layload-core --test core finer_cells -- --nocapture`; Heywood 2.296, a third of the width):
//!
//! | plate | by the grid | with the window |
//! |---|---|---|
//! | along the grid | -6.4 % | -2.2 % |
//! | along the grid, six cells across, a window of the window | -35 % | -2.9 % |
//! | at 17 degrees | -2.7 % | -1.0 % |
//!
//! Sample rods pulled at both bores by cosine pushes, stiffness by direction, 60 000 cells and windows at the peaks, against
//! quadratic tetrahedra refined until their peaks stand within 0.5 % at the small bore and 1.3 % at the big one
//! (`tests/reference/calculix`; `cargo test -p layload-core --test core pulled_rods -- --nocapture`):
//!
//! | rod | peak at the small bore | at the big bore | shank half way |
//! |---|---|---|---|
//! | plain | -1.7 % | -3.1 % | +0.1 % |
//! | with pockets | -1.0 % | -0.7 % | +0.8 % |
//! | plain, layers stacked in five directions, the worst | -5.0 % | -1.8 % | +0.1 % |
//!
//! The worst places of the sample parts over a duty, under the pins, gas and inertia of their worst moment, windows in windows
//! where surfaces turn inward (`tests/reference/calculix/hot_spots.py`, `hot_spots.json`, `pistons.json`):
//!
//! | place | off by |
//! |---|---|
//! | bores of the plain rod, its shank | -1.7 to +0.5 % |
//! | outsides of its eyes where they meet the shank | +1.7 and +4.2 % |
//! | fillets and pockets of 0.5 to 2 mm, meshes of the other program down to 0.1 mm | -7.0 to +1.9 % |
//! | crown, top land and bosses of a piston, meshes down to 0.3 mm | -2.5 to +0.8 % |
//!
//! Rigid pins in eyes twice as wide as their bores, pulled at four clearances, against one-sided contact in plane stress
//! (`tests/reference/eye_contact`; `cargo test -p layload-core --test core pinned -- --nocapture`): peak factor within
//! 3.3 %, contact half-angle within 5 degrees, the factor rising with clearance.
//!
//! # Limits
//!
//! - Small strains, linear material; warmth softens it along one axis alone ([`Softness`]).
//! - Two walls nearer than a cell are joined; walls thinner than two cells are too stiff in bending when they lie across
//!   the grid (a bar of two cells at 45 degrees bends 23 % too little).
//! - A peak needs cells: with fewer than six cells in its radius its height is smoothed down (12 % at four).
//! - At a clamp, a sharp inner corner or the end of a contact the true elastic stress has no bound, and the value depends
//!   on the size of cells.
//! - The stiffness of supports taken as rigid is that of a thirtieth of a cell of material.
//! - A pin's own bending and flattening is left out but for an even bedding.

// Numbers of nodes and cells are checked to be far below what a signed number holds.
#![allow(clippy::cast_possible_wrap)]

mod band;
mod bands;
mod bore;
mod case_sum;
mod clip;
mod coarsen;
mod coarsest;
mod conjugate;
mod element;
mod error;
mod free;
mod gauges;
mod grid;
mod held;
mod inside;
mod level;
mod lines;
mod load;
mod mirror;
mod model;
mod moments;
mod multigrid;
mod near;
mod number;
mod product;
mod recover;
mod relief;
mod rigid;
mod slivers;
mod smoother;
mod softness;
mod stencil;
mod stiffness;
mod support;
mod surface;
mod vectors;
mod voxels;
mod zoom;

pub use bore::{BANDS, BoreSeat, PinnedBore};
pub use case_sum::combined;
pub use conjugate::{Accuracy, History};
pub use error::FieldError;
pub use free::{FreeModel, FreeSolution};
pub use gauges::Gauges;
pub use grid::{CELLS_RANGE, Grid};
pub use held::{ContactPoint, HeldModel, Solution};
pub use inside::LighterInside;
pub use load::{Footprint, ForceField, Load};
pub use model::FieldModel;
pub use number::TOGETHER;
pub use recover::{Strains, SurfaceForce, tensor};
pub use relief::InertiaRelief;
pub use softness::Softness;
pub use stiffness::Stiffness;
pub use support::{Hold, Support};
pub use surface::SurfacePatch;
pub use voxels::Voxels;
pub use zoom::Zoom;
