//! Tests of the public face of `layload-core`, one file a behaviour.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod engine;
mod life;
mod load;
mod material;
mod print;
mod stress;
