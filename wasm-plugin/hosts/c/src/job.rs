//! The job that a host fills in.

use std::ffi::{CStr, c_char};
use std::sync::{Mutex, PoisonError};

use layload_ask::Purpose;

use crate::boundary::{done, freed, given, made, text, word};
use crate::error::Error;

/// What the engine does and how the part is printed: the text of a job file. It may be used by several threads at the same time.
pub struct Job(Mutex<layload_ask::Job>);

impl Job {
    /// The job as it is now.
    pub(crate) fn now(&self) -> layload_ask::Job {
        // A job is whole after every change, also where a thread gave up meanwhile.
        self.0.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }
}

/// Version of this library, such as `0.1.0`.
#[unsafe(no_mangle)]
pub extern "C" fn layload_version() -> *const c_char {
    const VERSION: &CStr = match CStr::from_bytes_with_nul(concat!(env!("CARGO_PKG_VERSION"), "\0").as_bytes()) {
        Ok(version) => version,
        Err(_) => c"",
    };
    VERSION.as_ptr()
}

/// Reads a job file (TOML in UTF-8) of `length` bytes into `job`, which is to be freed by `layload_job_free`. A length of 0 is a
/// job that says nothing. Gives null, or why there is no job.
///
/// # Safety
///
/// `toml` points to `length` bytes, `job` to a place for the result.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_job_read(toml: *const c_char, length: usize, job: *mut *mut Job) -> *mut Error {
    // SAFETY: as the caller says.
    unsafe {
        made(job, || {
            let said = layload_ask::Job::from_text(text(toml, length, "the text of the job")?)?;
            Ok(Job(Mutex::new(said)))
        })
    }
}

/// Sets what is said under a key such as `print.walls`, in the words of a job file (`2`, `"ball"`); takes it out where `value` is
/// null. Gives null, or why not.
///
/// # Safety
///
/// `job` is from `layload_job_read` and not freed; `key` and `value` end with a zero.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_job_set(job: *const Job, key: *const c_char, value: *const c_char) -> *mut Error {
    done(|| {
        // SAFETY: as the caller says.
        let (job, key) = unsafe { (given(job, "the job")?, word(key, "the key")?) };
        // SAFETY: as the caller says; a null value takes the key out.
        let value = if value.is_null() { None } else { Some(unsafe { word(value, "the value") }?) };
        job.0.lock().unwrap_or_else(PoisonError::into_inner).set_key(key, value)
    })
}

/// Gives the text of a material card (TOML in UTF-8), as `material.card_file` of the job names it or in place of
/// `material.name`. Gives null, or why not.
///
/// # Safety
///
/// `job` is from `layload_job_read` and not freed; `toml` points to `length` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_job_attach_card(job: *const Job, toml: *const c_char, length: usize) -> *mut Error {
    // SAFETY: as the caller says.
    unsafe { attach(job, Purpose::Card, toml, length) }
}

/// Gives the text of measured pressure (crank angle in degrees and absolute pressure in bar, with commas), as
/// `engine.gas.pressure_table` of the job names it. Gives null, or why not.
///
/// # Safety
///
/// `job` is from `layload_job_read` and not freed; `csv` points to `length` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_job_attach_pressure_table(
    job: *const Job,
    csv: *const c_char,
    length: usize,
) -> *mut Error {
    // SAFETY: as the caller says.
    unsafe { attach(job, Purpose::PressureTable, csv, length) }
}

/// # Safety
///
/// As of the two above.
unsafe fn attach(job: *const Job, purpose: Purpose, given_text: *const c_char, length: usize) -> *mut Error {
    done(|| {
        // SAFETY: as the caller says.
        let (job, text) = unsafe { (given(job, "the job")?, text(given_text, length, "the text of the file")?) };
        job.0.lock().unwrap_or_else(PoisonError::into_inner).attach(purpose, text.into());
        Ok(())
    })
}

/// Frees a job; null is nothing.
///
/// # Safety
///
/// `job` is null or was given by this library, was not freed, and is not used any more.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_job_free(job: *mut Job) {
    // SAFETY: as the caller says.
    unsafe { freed(job) }
}
