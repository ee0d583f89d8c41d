//! A part that was read once.

use std::ffi::c_void;

use layload_ask::Triangles;

use crate::boundary::{freed, given, list, made, teller};
use crate::error::Error;
use crate::job::Job;
use crate::progress::Progress;

/// A part that was read once, for many questions. It does not change and may be asked by several threads at the same time.
pub struct Part(pub(crate) layload_ask::Part);

/// Reads the part in an STL of `length` bytes, binary or ASCII, into `part`, which is to be freed by `layload_part_free`. Of the
/// job only what it says of the part counts here. Gives null, or why there is no part.
///
/// # Safety
///
/// `stl` points to `length` bytes that do not change meanwhile, `job` is from `layload_job_read` and not freed, `progress` is null
/// or may be called with `user`, `part` points to a place for the result.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_part_from_stl(
    stl: *const u8,
    length: usize,
    job: *const Job,
    progress: Progress,
    user: *mut c_void,
    part: *mut *mut Part,
) -> *mut Error {
    // SAFETY: as the caller says.
    unsafe {
        made(part, || {
            let (stl, job) = (list(stl, length, "the mesh")?, given(job, "the job")?.now());
            let mut told = teller(progress, user);
            layload_ask::Part::from_stl(stl, &job, &mut told).map(Part)
        })
    }
}

/// Reads the part in a surface: `point_count` times x, y and z, in the unit that the job says, millimetres unless it does; and
/// `triangle_count` times the numbers of three points, counter-clockwise seen from outside, from 0. Coordinates are rounded to
/// single precision, so that a surface gives the answer of the STL with the same points. Otherwise as `layload_part_from_stl`.
///
/// # Safety
///
/// `points` points to 3 times `point_count` numbers and `corners` to 3 times `triangle_count`; all else as of
/// `layload_part_from_stl`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_part_from_triangles(
    points: *const f64,
    point_count: usize,
    corners: *const u32,
    triangle_count: usize,
    job: *const Job,
    progress: Progress,
    user: *mut c_void,
    part: *mut *mut Part,
) -> *mut Error {
    // SAFETY: as the caller says.
    unsafe {
        made(part, || {
            // Rows of three lie as single numbers do.
            let points: &[[f64; 3]] = list(points.cast(), point_count, "the points")?;
            let corners: &[[u32; 3]] = list(corners.cast(), triangle_count, "the corners")?;
            let job = given(job, "the job")?.now();
            let mut told = teller(progress, user);
            layload_ask::Part::from_triangles(Triangles { points, corners }, &job, &mut told).map(Part)
        })
    }
}

/// Frees a part; null is nothing.
///
/// # Safety
///
/// `part` is null or was given by this library, was not freed, and is not used any more.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_part_free(part: *mut Part) {
    // SAFETY: as the caller says.
    unsafe { freed(part) }
}
