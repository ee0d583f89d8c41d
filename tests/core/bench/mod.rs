//! What bench runs teach.

mod by_mode;
mod closed_form;
mod learned;
mod log;
