//! The plugin in the native host: the same answers as without it, and nothing to trust.
//!
//! Needs the component: `bash wasm-plugin/build.sh`.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod cache;
mod cancel;
mod command;
mod field;
mod hostile;
mod imports;
mod interface;
mod leaks;
mod limits;
mod parity;
mod refusal;
mod setting;
mod words;
