//! A report in sentences of plain English, the same ones in a terminal, on a page and from the plugin.

pub mod advice;
pub mod answer;
pub mod numbers;
mod piston;
