//! Why there is no answer.

use std::ffi::{CString, c_char};
use std::ptr;

use layload_ask::Refusal;

use crate::boundary::{c_text, freed, given};

/// Why there is no answer.
pub struct Error {
    code: CString,
    key: Option<CString>,
    message: CString,
    help: CString,
}

impl Error {
    pub(crate) fn pointer(refusal: Refusal) -> *mut Self {
        let Refusal { code, key, message, help } = refusal;
        Box::into_raw(Box::new(Self {
            code: c_text(code),
            key: key.map(c_text),
            message: c_text(message),
            help: c_text(help),
        }))
    }
}

/// A short word for the reason that stays the same from version to version, for programs.
///
/// # Safety
///
/// `error` is null or was given by this library and not freed. The text is there until it is freed; null for null.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_error_code(error: *const Error) -> *const c_char {
    // SAFETY: as the caller says.
    unsafe { given(error, "the error") }.map_or(ptr::null(), |error| error.code.as_ptr())
}

/// Key of the job that the reason is about, such as `engine.stroke_mm`; null where it is about none.
///
/// # Safety
///
/// As of `layload_error_code`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_error_key(error: *const Error) -> *const c_char {
    // SAFETY: as the caller says.
    let error = unsafe { given(error, "the error") };
    error.ok().and_then(|error| error.key.as_ref()).map_or(ptr::null(), |key| key.as_ptr())
}

/// What is wrong, a sentence in UTF-8.
///
/// # Safety
///
/// As of `layload_error_code`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_error_message(error: *const Error) -> *const c_char {
    // SAFETY: as the caller says.
    unsafe { given(error, "the error") }.map_or(ptr::null(), |error| error.message.as_ptr())
}

/// What to do about it, a sentence in UTF-8.
///
/// # Safety
///
/// As of `layload_error_code`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_error_help(error: *const Error) -> *const c_char {
    // SAFETY: as the caller says.
    unsafe { given(error, "the error") }.map_or(ptr::null(), |error| error.help.as_ptr())
}

/// Frees an error; null is nothing.
///
/// # Safety
///
/// `error` is null or was given by this library, was not freed, and is not used any more.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_error_free(error: *mut Error) {
    // SAFETY: as the caller says.
    unsafe { freed(error) }
}
