use std::sync::OnceLock;

use crate::life::{Cycle, RainflowScratch, TensionLevels, rainflow_repeating};
use crate::numeric::{greater, lesser};

/// How far a stress reaches over the duty, Pa.
#[derive(Debug, Clone, Default)]
pub(crate) struct Reach {
    /// Least and greatest of each step.
    pub(crate) steps: Vec<(f64, f64)>,
    /// When the engine stands.
    pub(crate) rest: f64,
}

impl Reach {
    /// Least and greatest of the whole duty, rest included.
    pub(crate) fn whole(&self) -> (f64, f64) {
        let start = (self.rest, self.rest);
        self.steps.iter().fold(start, |all, step| (lesser(all.0, step.0), greater(all.1, step.1)))
    }

    /// From one extreme to the other and back, rest among them.
    pub(crate) fn start_and_stop(&self) -> Cycle {
        let (low, high) = self.whole();
        Cycle { range: high - low, mean: f64::midpoint(high, low), count: 1.0 }
    }
}

/// Stress along one line at one point over the duty.
#[derive(Debug, Clone, Default)]
pub(crate) struct SpotStress {
    pub(crate) reach: Reach,
    /// Counted when first asked for.
    counted: OnceLock<Counted>,
}

impl SpotStress {
    pub(crate) fn new(reach: Reach) -> Self {
        Self { reach, counted: OnceLock::new() }
    }

    /// Least and greatest stress of the whole duty, rest included.
    pub(crate) fn whole(&self) -> (f64, f64) {
        self.reach.whole()
    }

    /// Whether the stress over what is kept of the strength lies within that of another place at every step.
    pub(crate) fn within(&self, kept: f64, other: &Self, other_kept: f64) -> bool {
        let steps = self.reach.steps.iter().zip(&other.reach.steps);
        steps.into_iter().all(|(a, b)| b.0 / other_kept <= a.0 / kept && a.1 / kept <= b.1 / other_kept)
    }

    /// `history` gives the stress at every crank angle of a step, Pa; `shares` the share of the time of each step.
    pub(crate) fn counted(&self, shares: impl Iterator<Item = f64>, history: impl Fn(usize) -> Vec<f64>) -> &Counted {
        self.counted.get_or_init(|| Counted::of((0..self.reach.steps.len()).map(history), shares))
    }
}

/// Histories of stress by what they do to a place.
#[derive(Debug, Clone, Default)]
pub(crate) struct Counted {
    /// Rainflow cycles of each step in one engine cycle.
    pub(crate) cycles: Vec<Vec<Cycle>>,
    /// Levels of tension over the whole duty.
    pub(crate) levels: TensionLevels,
}

impl Counted {
    /// Of the history of each step with its share of the time.
    pub(crate) fn of(histories: impl Iterator<Item = impl AsRef<[f64]>>, shares: impl Iterator<Item = f64>) -> Self {
        Self::of_both(histories.map(|history| (history, None::<Vec<f64>>)), shares)
    }

    /// The same where what lasts is another number than what repeats: both histories of each step.
    pub(crate) fn of_both(
        histories: impl Iterator<Item = (impl AsRef<[f64]>, Option<impl AsRef<[f64]>>)>,
        shares: impl Iterator<Item = f64>,
    ) -> Self {
        let mut scratch = RainflowScratch::default();
        let (mut cycles, mut levels) = (Vec::new(), Vec::new());
        for (repeating, lasting) in histories {
            let repeating = repeating.as_ref();
            cycles.push(counted(repeating, &mut scratch));
            levels.push(TensionLevels::of(lasting.as_ref().map_or(repeating, AsRef::as_ref)));
        }
        Self { cycles, levels: TensionLevels::joined(levels.iter().zip(shares)) }
    }
}

/// Cycles of one history that repeats; one that cannot be counted is a cycle that nothing survives.
fn counted(history: &[f64], scratch: &mut RainflowScratch) -> Vec<Cycle> {
    let mut cycles = Vec::new();
    match rainflow_repeating(history, scratch, |cycle| cycles.push(cycle)) {
        Ok(()) => cycles,
        Err(_) => vec![Cycle { range: f64::INFINITY, mean: f64::INFINITY, count: 1.0 }],
    }
}

/// Least and greatest of a history.
pub(crate) fn extremes(history: impl Iterator<Item = f64>) -> (f64, f64) {
    history.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), s| (lesser(low, s), greater(high, s)))
}
