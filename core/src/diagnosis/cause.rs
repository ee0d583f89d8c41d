use libm::{exp, log};

use super::Seen;
use super::expected::Expected;
use super::look::Look;
use super::signs::chance;
use crate::numeric::sort_few;
use crate::verdict::Mode;

/// What may have caused a break.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cause {
    /// The failure mode; none where it is none of those that are known.
    pub mode: Option<Mode>,
    /// How likely it is.
    pub probability: f64,
    /// How likely it was before the looks: by the model, the place and the time alone.
    pub before: f64,
}

/// Share of breaks whose cause is none of the modes: something left in the engine, a fault of assembly, a print that stopped half
/// way (common practice).
const UNKNOWN: f64 = 0.02;

/// Such a break comes at any time from a second to some ten days alike: density over the logarithm of time.
const UNKNOWN_TIME: f64 = 1.0 / 13.8;

/// Share of looks that are there and told, where any is told.
const TOLD: f64 = 0.5;

/// How likely each cause is, the likeliest first.
///
/// Bayes: how often the model has a mode end a part at that time and in that region while no other has ended it, times how often
/// its breaks look so. A look that is not told counts as half a look.
pub fn causes(expected: &[Expected], seen: &Seen, regions: &[&'static str]) -> Vec<Cause> {
    let even = 1.0 / regions.len().max(1) as f64;
    let region = seen.place.as_ref().and_then(|place| regions.iter().position(|region| *region == place.region));
    let ends = match seen.seconds {
        Some(seconds) => at_time(expected, seconds),
        None => first_of(expected),
    };
    // No mode had ended it before.
    let left = |seconds: f64| expected.iter().map(|mode| mode.left_after(seconds)).product::<f64>();
    let unknown =
        UNKNOWN * seen.seconds.map_or(1.0, |seconds| UNKNOWN_TIME * left(seconds)) * region.map_or(1.0, |_| even);
    let mut list: Vec<(Option<Mode>, f64)> = expected
        .iter()
        .zip(ends)
        .map(|(mode, end)| {
            (Some(mode.mode), end * region.map_or(1.0, |index| mode.shares.get(index).copied().unwrap_or(even)))
        })
        .collect();
    list.push((None, unknown));
    let before = shares(&list.iter().map(|(_, weight)| log(weight.max(1e-300))).collect::<Vec<_>>());
    let after: Vec<f64> =
        list.iter().map(|(mode, weight)| log(weight.max(1e-300)) + ln_looks(&seen.looks, *mode)).collect();
    let after = shares(&after);
    let mut causes: Vec<Cause> = list
        .iter()
        .zip(before.iter().zip(after))
        .map(|((mode, _), (before, probability))| Cause { mode: *mode, probability, before: *before })
        .collect();
    sort_few(&mut causes, |a, b| b.probability.total_cmp(&a.probability).then(a.mode.cmp(&b.mode)));
    causes
}

/// Logarithm of how often breaks of a cause have these looks, and not the others.
pub(super) fn ln_looks(looks: &[Look], mode: Option<Mode>) -> f64 {
    if looks.is_empty() {
        return 0.0;
    }
    Look::ALL
        .into_iter()
        .map(|look| {
            let there = chance(look, mode);
            log(if looks.contains(&look) { TOLD * there } else { 1.0 - TOLD * there })
        })
        .sum()
}

/// For each mode, how often it ends a part at a time while no other has.
fn at_time(expected: &[Expected], seconds: f64) -> Vec<f64> {
    let left: Vec<f64> = expected.iter().map(|mode| mode.left_after(seconds)).collect();
    (0..expected.len())
        .map(|own| {
            let others = left.iter().enumerate().filter(|(other, _)| *other != own);
            expected[own].density_of_time(seconds) * others.map(|(_, left)| left).product::<f64>()
        })
        .collect()
}

/// For each mode, how often it is the first to end a part within the run: over the factors on all stress at which parts fail.
fn first_of(expected: &[Expected]) -> Vec<f64> {
    /// Reach and steps of the sum, in the logarithm of the factor.
    const REACH: f64 = 6.0;
    const STEPS: usize = 240;
    let step = REACH / STEPS as f64;
    let mut sums = vec![0.0; expected.len()];
    for k in 0..STEPS {
        let factor = -REACH + (k as f64 + 0.5) * step;
        let bears: Vec<f64> = expected.iter().map(|mode| mode.bears(factor)).collect();
        for (own, sum) in sums.iter_mut().enumerate() {
            let others = bears.iter().enumerate().filter(|(other, _)| *other != own);
            *sum += step * expected[own].density_of_factor(factor) * others.map(|(_, bears)| bears).product::<f64>();
        }
    }
    sums
}

/// Shares from the logarithms of weights.
fn shares(logarithms: &[f64]) -> Vec<f64> {
    let top = logarithms.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let weights: Vec<f64> = logarithms.iter().map(|value| exp(value - top)).collect();
    let sum: f64 = weights.iter().sum();
    weights.into_iter().map(|weight| weight / sum).collect()
}
