//! The greater and the lesser of two numbers, for loops over many.
//!
//! `f64::max` and `f64::min` are calls in WebAssembly, whose own instructions answer a number that is none otherwise; in a
//! sandbox that can be stopped each call also asks whether to go on. These are a comparison and a choice everywhere.

/// The greater; `known` where both are equal or `other` is not a number.
#[inline]
pub fn greater(known: f64, other: f64) -> f64 {
    if other > known { other } else { known }
}

/// The lesser; `known` where both are equal or `other` is not a number.
#[inline]
pub fn lesser(known: f64, other: f64) -> f64 {
    if other < known { other } else { known }
}
