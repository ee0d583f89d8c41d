//! What bench runs teach.

mod closed_form;
mod learned;
mod log;
