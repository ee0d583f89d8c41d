//! A report in sentences of plain English, the same ones in a terminal, on a page and from the plugin.

/// What to change first.
pub mod advice;
/// The answer and the lines under it.
pub mod answer;
/// Numbers as people read them.
pub mod numbers;
mod piston;
