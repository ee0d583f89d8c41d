//! One part gets one answer, however it lies in its file and however its surface is divided into facets.
//!
//! Copies are made in double precision, so that nothing but their place and facets changes; some are written as STL too.
//! Every copy is recognised. Checks take longer: some poses are checked, and every pose with `LAYLOAD_ALL_POSES` set, as before
//! a release.

mod answer;
mod checked;
mod corpus;
mod directions;
mod ends;
mod far;
mod field;
mod joints;
mod recognised;
mod scaled;
mod walls;

use std::error::Error;

pub(crate) type Found<T> = Result<T, Box<dyn Error>>;

/// Poses of every part.
const POSES: usize = 50;

/// Farthest that copies lie from the origin along an axis, m.
const REACH: f64 = 0.3;

/// Whether a pose is looked at in a test that cannot look at all.
fn looked_at(pose: usize, every: usize) -> bool {
    pose.is_multiple_of(every) || all_poses()
}

fn all_poses() -> bool {
    std::env::var_os("LAYLOAD_ALL_POSES").is_some()
}
