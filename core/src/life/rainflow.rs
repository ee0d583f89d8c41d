use std::cmp::Ordering;

use super::error::LifeError;

/// One counted cycle, in the unit of the history.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cycle {
    /// Peak less valley; above zero.
    pub range: f64,
    /// Midway between peak and valley.
    pub mean: f64,
    /// 1 for a full cycle, 0.5 for a half.
    pub count: f64,
}

impl Cycle {
    /// Half the range.
    pub fn amplitude(&self) -> f64 {
        0.5 * self.range
    }

    fn between(a: f64, b: f64, count: f64) -> Self {
        Self { range: (a - b).abs(), mean: a + 0.5 * (b - a), count }
    }
}

/// Memory that counting re-uses from one history to the next, so that many histories cost no allocation.
#[derive(Debug, Clone, Default)]
pub struct RainflowScratch {
    /// Turning points not yet paired.
    open: Vec<f64>,
}

/// Counts a history once through: rainflow by ASTM E1049-85, 5.4.4.
///
/// The first and the last sample count as turning points; equal neighbours are one. `found` is called for every
/// cycle in the order in which the standard finds them: full cycles and half cycles as they close, then the
/// remaining ranges as half cycles. Twice the sum of the counts is the number of turning points less one.
pub fn rainflow(history: &[f64], scratch: &mut RainflowScratch, mut found: impl FnMut(Cycle)) -> Result<(), LifeError> {
    check(history)?;
    let open = &mut scratch.open;
    open.clear();
    // `open` ends in the newest sample, which becomes a turning point when the direction changes. Pairing looks
    // only at confirmed ones.
    for &sample in history {
        if extend(open, sample) {
            continue;
        }
        pair_once_through(open, &mut found);
        open.push(sample);
    }
    pair_once_through(open, &mut found);
    for ends in open.windows(2) {
        found(Cycle::between(ends[0], ends[1], 0.5));
    }
    Ok(())
}

/// Counts one period of a history that repeats for ever: ASTM E1049-85, 5.4.5, rainflow of a repeating history.
///
/// Counting begins and ends at the highest sample, so every cycle is a full one and where the period starts makes
/// no difference. The last sample is followed by the first; it may but need not repeat it.
pub fn rainflow_repeating(
    period: &[f64],
    scratch: &mut RainflowScratch,
    mut found: impl FnMut(Cycle),
) -> Result<(), LifeError> {
    check(period)?;
    let open = &mut scratch.open;
    open.clear();
    let mut highest = 0;
    for (index, sample) in period.iter().enumerate() {
        if *sample > period[highest] {
            highest = index;
        }
    }
    let (before, from_highest) = period.split_at(highest);
    for &sample in from_highest.iter().chain(before).chain(&period[highest..=highest]) {
        if extend(open, sample) {
            continue;
        }
        pair_full(open, &mut found);
        open.push(sample);
    }
    pair_full(open, &mut found);
    Ok(())
}

fn check(history: &[f64]) -> Result<(), LifeError> {
    if history.is_empty() {
        return Err(LifeError::TooShort { count: 0, least: 1 });
    }
    match history.iter().position(|sample| !sample.is_finite()) {
        Some(index) => Err(LifeError::NotFinite { index }),
        None => Ok(()),
    }
}

/// Takes a sample that goes on in the direction of the last two, or is the first; true if it was taken.
fn extend(open: &mut Vec<f64>, sample: f64) -> bool {
    match open.as_mut_slice() {
        [] => {
            open.push(sample);
            true
        }
        [.., last] if sample.partial_cmp(last) == Some(Ordering::Equal) => true,
        [.., before, last] if (*last > *before) == (sample > *last) => {
            *last = sample;
            true
        }
        _ => false,
    }
}

/// X is the newest range, Y the one before: while X is no smaller, Y is counted.
fn pair_once_through(open: &mut Vec<f64>, found: &mut impl FnMut(Cycle)) {
    while let [.., a, b, c] = open[..] {
        let (x, y) = ((c - b).abs(), (b - a).abs());
        if x < y {
            break;
        }
        if open.len() == 3 {
            // Y holds the starting point: half a cycle, and the start moves on.
            found(Cycle::between(a, b, 0.5));
            open.remove(0);
        } else {
            found(Cycle::between(a, b, 1.0));
            remove_pair(open, c);
        }
    }
}

/// As [`pair_once_through`], for a history that begins at its highest point: every Y is a full cycle.
fn pair_full(open: &mut Vec<f64>, found: &mut impl FnMut(Cycle)) {
    while let [.., a, b, c] = open[..] {
        if (c - b).abs() < (b - a).abs() {
            break;
        }
        found(Cycle::between(a, b, 1.0));
        remove_pair(open, c);
    }
}

/// Takes the two points of Y from under the newest point.
fn remove_pair(open: &mut Vec<f64>, newest: f64) {
    open.truncate(open.len() - 3);
    open.push(newest);
}
