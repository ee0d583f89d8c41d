//! The checks of `layload` for C and C++. What hosts see is `include/layload.h`, which is made from this crate.
//!
//! Every function that can fail gives back null, or an error that tells why. Pointers and lengths are checked as far as that is
//! possible; a panic does not leave the library. All `unsafe` code of the project's libraries is here, in `boundary` and where
//! functions call it.

// C hosts know nothing of these types but their pointers.
#![allow(missing_debug_implementations)]
#![deny(clippy::undocumented_unsafe_blocks, unsafe_op_in_unsafe_fn)]

pub mod answer;
mod boundary;
pub mod error;
pub mod job;
pub mod part;
pub mod progress;
