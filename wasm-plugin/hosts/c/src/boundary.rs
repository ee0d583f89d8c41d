//! The boundary itself: what comes in is looked at before it is used, and no panic goes out.

use std::ffi::{CStr, CString, c_char, c_void};
use std::mem::size_of;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::ptr;

use layload_ask::Refusal;

use crate::error::Error;
use crate::progress::Progress;

/// Longest text of a job, a card or a table, bytes.
const TEXT_MOST: usize = 64 << 20;

/// Longest key, value or question, bytes without the zero at the end.
const WORD_MOST: usize = 1 << 20;

/// Runs what a function is for: gives null and the result in `out`, or the reason why there is none and null in `out`.
///
/// # Safety
///
/// `out` is null or may be written to.
pub(crate) unsafe fn made<T>(out: *mut *mut T, work: impl FnOnce() -> Result<T, Refusal>) -> *mut Error {
    if out.is_null() || !out.is_aligned() {
        return Error::pointer(bad_pointer("the place for the result", out.is_null()));
    }
    let (found, error) = match guarded(work) {
        Ok(found) => (Box::into_raw(Box::new(found)), ptr::null_mut()),
        Err(refusal) => (ptr::null_mut(), Error::pointer(refusal)),
    };
    // SAFETY: the caller gives a place that may be written to; it is neither null nor misaligned.
    unsafe { out.write(found) };
    error
}

/// The same for functions without a result.
pub(crate) fn done(work: impl FnOnce() -> Result<(), Refusal>) -> *mut Error {
    guarded(work).map_or_else(Error::pointer, |()| ptr::null_mut())
}

/// A panic becomes a reason: unwinding into C is not defined.
fn guarded<T>(work: impl FnOnce() -> Result<T, Refusal>) -> Result<T, Refusal> {
    // What a panic left half done is not used again: results are dropped with it, and parts and jobs do not change while asked.
    catch_unwind(AssertUnwindSafe(work)).unwrap_or_else(|_| {
        Err(Refusal::own(
            "fault",
            "the library has a fault and gave up this question",
            "report this with the mesh and the job",
        ))
    })
}

/// What was made here, or why not.
///
/// # Safety
///
/// `pointer` is null or was given by this library and not freed.
pub(crate) unsafe fn given<'a, T>(pointer: *const T, what: &str) -> Result<&'a T, Refusal> {
    checked(pointer, what)?;
    // SAFETY: the caller gives what this library made and did not free; it is neither null nor misaligned.
    Ok(unsafe { &*pointer })
}

/// Takes back what was made here; null is nothing.
///
/// # Safety
///
/// As [`given`], and nobody uses it any more.
pub(crate) unsafe fn freed<T>(pointer: *mut T) {
    if !pointer.is_null() && pointer.is_aligned() {
        // SAFETY: the caller gives what this library made by `Box::into_raw`, once.
        drop(unsafe { Box::from_raw(pointer) });
    }
}

/// A list of numbers.
///
/// # Safety
///
/// `first` is null or points to `count` values that do not change during the call.
pub(crate) unsafe fn list<'a, T>(first: *const T, count: usize, what: &str) -> Result<&'a [T], Refusal> {
    if count == 0 {
        return Ok(&[]);
    }
    checked(first, what)?;
    if count > isize::MAX as usize / size_of::<T>() {
        return Err(too_long(what, count, isize::MAX as usize / size_of::<T>()));
    }
    // SAFETY: the caller gives `count` values; the place is neither null nor misaligned, and the length no overflow.
    Ok(unsafe { std::slice::from_raw_parts(first, count) })
}

/// A text with its length.
///
/// # Safety
///
/// As [`list`].
pub(crate) unsafe fn text<'a>(first: *const c_char, length: usize, what: &str) -> Result<&'a str, Refusal> {
    if length > TEXT_MOST {
        return Err(too_long(what, length, TEXT_MOST));
    }
    // SAFETY: the caller gives `length` bytes.
    let bytes = unsafe { list(first.cast::<u8>(), length, what) }?;
    utf8(bytes, what)
}

/// A text that ends with a zero.
///
/// # Safety
///
/// `first` is null or points to bytes of which one is zero, and which do not change during the call.
pub(crate) unsafe fn word<'a>(first: *const c_char, what: &str) -> Result<&'a str, Refusal> {
    checked(first, what)?;
    // SAFETY: the caller gives bytes that end with a zero.
    let bytes = unsafe { CStr::from_ptr(first) }.to_bytes();
    if bytes.len() > WORD_MOST {
        return Err(too_long(what, bytes.len(), WORD_MOST));
    }
    utf8(bytes, what)
}

/// The host's function as one to call.
///
/// # Safety
///
/// `progress` may be called with `user` until the question is over.
pub(crate) unsafe fn teller(progress: Progress, user: *mut c_void) -> impl FnMut(&str, f64) -> bool {
    move |stage: &str, share: f64| match progress {
        None => true,
        Some(told) => {
            let stage = c_text(stage.into());
            // SAFETY: the caller lets it be called with `user`; the text ends with a zero and outlives the call.
            unsafe { told(user, stage.as_ptr(), share) }
        }
    }
}

/// Text as C reads it: a zero in it would end it.
pub(crate) fn c_text(text: String) -> CString {
    CString::new(text).unwrap_or_else(|zero| {
        let bytes = zero.into_vec();
        CString::new(String::from_utf8_lossy(&bytes).replace('\0', "\\0")).unwrap_or_default()
    })
}

fn utf8<'a>(bytes: &'a [u8], what: &str) -> Result<&'a str, Refusal> {
    std::str::from_utf8(bytes).map_err(|error| {
        let place = error.valid_up_to();
        Refusal::own("argument-not-utf8", format!("{what} is not UTF-8 from byte {place} on"), "give it in UTF-8")
    })
}

pub(crate) fn checked<T>(pointer: *const T, what: &str) -> Result<(), Refusal> {
    let sound = !pointer.is_null() && pointer.is_aligned();
    if sound { Ok(()) } else { Err(bad_pointer(what, pointer.is_null())) }
}

fn bad_pointer(what: &str, null: bool) -> Refusal {
    if null {
        Refusal::own(
            "argument-null",
            format!("{what} is a null pointer"),
            "give every argument that is not said to be optional",
        )
    } else {
        Refusal::own(
            "argument-misaligned",
            format!("{what} is not aligned for its type"),
            "copy the numbers to an array of their type",
        )
    }
}

fn too_long(what: &str, length: usize, most: usize) -> Refusal {
    Refusal::own(
        "argument-too-long",
        format!("{what} has the length {length}, more than {most}"),
        "look whether the length is meant",
    )
}
