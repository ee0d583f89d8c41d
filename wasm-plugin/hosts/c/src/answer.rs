//! Questions and their answers.

use std::ffi::{CString, c_char, c_void};
use std::ptr;

use crate::boundary::{c_text, checked, done, freed, given, made, teller, word};
use crate::error::Error;
use crate::job::Job;
use crate::part::Part;
use crate::progress::Progress;

/// An answer. It does not change.
pub struct Answer {
    json: CString,
    words: CString,
    painted: Option<layload_ask::Painted>,
}

/// The surface that was asked about, with a number for every facet. It is part of its answer and gone with it.
#[repr(C)]
pub struct Painted {
    /// x, y and z of every point, mm, coordinates of the mesh.
    pub points_mm: *const f64,
    /// How many points.
    pub point_count: usize,
    /// Numbers of the three points of every facet, counter-clockwise seen from outside.
    pub corners: *const u32,
    /// How many facets.
    pub facet_count: usize,
    /// The number of every facet, NaN where there is none. After `check` stress over what 90 % of prints bear there for the
    /// wanted life, 1 being the limit; after `walls` the least thickness, mm.
    pub values: *const f64,
}

impl From<layload_ask::Answer> for Answer {
    fn from(answer: layload_ask::Answer) -> Self {
        let (json, words, painted) = answer.into_parts();
        Self { json: c_text(json), words: c_text(words), painted }
    }
}

/// Asks a part. `question` is JSON such as `{"question": "check", "cells": 20000}`; README of the plugin lists them. The answer
/// is to be freed by `layload_answer_free`. Gives null, or why there is no answer.
///
/// # Safety
///
/// `part` and `job` are from this library and not freed, `question` ends with a zero, `progress` is null or may be called with
/// `user`, `answer` points to a place for the result.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_ask(
    part: *const Part,
    job: *const Job,
    question: *const c_char,
    progress: Progress,
    user: *mut c_void,
    answer: *mut *mut Answer,
) -> *mut Error {
    // SAFETY: as the caller says.
    unsafe {
        made(answer, || {
            let (part, job) = (given(part, "the part")?, given(job, "the job")?.now());
            let question = word(question, "the question")?;
            let mut told = teller(progress, user);
            layload_ask::ask(&part.0, &job, question, &mut told).map(Answer::from)
        })
    }
}

/// Compares two parts, each with its job; `question` is `{"question": "compare"}`. Otherwise as `layload_ask`.
///
/// # Safety
///
/// As of `layload_ask`, of both parts and jobs.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_compare(
    old_part: *const Part,
    old_job: *const Job,
    new_part: *const Part,
    new_job: *const Job,
    question: *const c_char,
    progress: Progress,
    user: *mut c_void,
    answer: *mut *mut Answer,
) -> *mut Error {
    // SAFETY: as the caller says.
    unsafe {
        made(answer, || {
            let (old, new) = (given(old_part, "the old part")?, given(new_part, "the new part")?);
            let (old_job, new_job) = (given(old_job, "the old job")?.now(), given(new_job, "the new job")?.now());
            let question = word(question, "the question")?;
            let mut told = teller(progress, user);
            layload_ask::compare((&old.0, &old_job), (&new.0, &new_job), question, &mut told).map(Answer::from)
        })
    }
}

/// The report: the very bytes that the command line prints as JSON, with the line break at its end and a zero after it. Its length
/// without that zero goes to `length` unless that is null.
///
/// # Safety
///
/// `answer` is null or from this library and not freed; the text is there until it is freed; null for null. `length` is null or
/// may be written to.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_answer_json(answer: *const Answer, length: *mut usize) -> *const c_char {
    // SAFETY: as the caller says.
    unsafe { shown(answer, length, |answer| &answer.json) }
}

/// What it says in plain English (UTF-8), a thought a line, with the cautions: show them to whoever will run the part. Otherwise
/// as `layload_answer_json`.
///
/// # Safety
///
/// As of `layload_answer_json`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_answer_words(answer: *const Answer, length: *mut usize) -> *const c_char {
    // SAFETY: as the caller says.
    unsafe { shown(answer, length, |answer| &answer.words) }
}

/// # Safety
///
/// As of the two above.
unsafe fn shown(answer: *const Answer, length: *mut usize, text: fn(&Answer) -> &CString) -> *const c_char {
    // SAFETY: as the caller says.
    let text = unsafe { given(answer, "the answer") }.map(text);
    if !length.is_null() && length.is_aligned() {
        // SAFETY: the caller gives a place that may be written to.
        unsafe { length.write(text.as_ref().map_or(0, |text| text.as_bytes().len())) };
    }
    text.map_or(ptr::null(), |text| text.as_ptr())
}

/// Puts the surface and its numbers into `painted`: of `walls`, and of `check` with `"paint": true` or `"facets": true`; of other
/// answers all counts are 0. Gives null, or why not.
///
/// # Safety
///
/// `answer` is from this library and not freed; `painted` may be written to.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_answer_painted(answer: *const Answer, painted: *mut Painted) -> *mut Error {
    done(|| {
        // SAFETY: as the caller says.
        let answer = unsafe { given(answer, "the answer") }?;
        checked(painted, "the place for the result")?;
        let (points, corners, values) = answer.painted.as_ref().map_or((&[][..], &[][..], &[][..]), |painted| {
            (&painted.points_mm[..], &painted.corners[..], &painted.values[..])
        });
        let found = Painted {
            points_mm: points.as_ptr().cast(),
            point_count: points.len(),
            corners: corners.as_ptr().cast(),
            facet_count: corners.len(),
            values: values.as_ptr(),
        };
        // SAFETY: the caller gives a place that may be written to; it is neither null nor misaligned.
        unsafe { painted.write(found) };
        Ok(())
    })
}

/// Frees an answer; null is nothing.
///
/// # Safety
///
/// `answer` is null or was given by this library, was not freed, and is not used any more.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn layload_answer_free(answer: *mut Answer) {
    // SAFETY: as the caller says.
    unsafe { freed(answer) }
}
