//! How a host hears of work that goes on.

use std::ffi::{c_char, c_void};

/// Called as work goes on, in the thread that called the library: what begins, in a few words (UTF-8), and which share of the
/// work lies behind, from 0 up to 1 and never less than before. The text is there until the function returns. After false the
/// call ends with the error `cancelled`. A stage of a large mesh may take seconds. It must not throw, jump out of the call, or
/// free what the running call was given.
pub type Progress = Option<unsafe extern "C" fn(user: *mut c_void, stage: *const c_char, share: f64) -> bool>;
