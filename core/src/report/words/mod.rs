//! A report in sentences of plain English, the same ones in a terminal, on a page and from the plugin.

/// What to do, best first, from what to what.
pub mod actions;
/// What to change first.
pub mod advice;
/// The answer and the lines under it.
pub mod answer;
/// A change from what to what.
pub mod change;
/// How far the answer may be off.
pub mod confidence;
/// How long the part gets and what is left of its clearances.
pub mod fits;
/// How hot the part gets.
pub mod heat;
/// Numbers as people read them.
pub mod numbers;
/// The engine and the print as taken.
pub mod setting;
mod taken;
/// What was not checked.
pub mod unchecked;
