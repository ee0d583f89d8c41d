//! Mesh and stress field of a solid: from the bytes of an STL file to closed bodies, and from a body, its stiffness, its
//! supports and its loads to the stress at its surface.
//!
//! It is what `layload-core` stands on, and knows nothing of rods, prints or materials: stiffness, depths and densities come
//! in as numbers. Use `layload-core`; what is offered here changes without notice. It is a crate of its own because programs
//! that have to be small are compiled by crate: this one for speed, the rest for size.
//!
//! SI throughout. It reads no file and asks no clock. The same input gives the same bytes on every machine, in a sandbox and
//! with any number of threads.
//!
//! # Features
//!
//! - `threads`: work is shared between threads.

#![forbid(unsafe_code)]

pub mod field;
pub mod input;
pub mod mesh;
pub mod numeric;
pub mod units;
