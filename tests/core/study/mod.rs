//! Many cases: how they are sampled, and what moves them.

mod effects;
mod plan;
mod run;
