use std::sync::OnceLock;

use crate::life::{Cycle, RainflowScratch, rainflow_repeating};

/// Stress along one line at one point over the duty.
#[derive(Debug, Clone, Default)]
pub(super) struct SpotStress {
    /// Least and greatest stress of each step, Pa.
    pub(super) steps: Vec<(f64, f64)>,
    /// Cycles of each step in one engine cycle, counted when first asked for.
    cycles: OnceLock<Vec<Vec<Cycle>>>,
}

impl SpotStress {
    pub(super) fn new(steps: Vec<(f64, f64)>) -> Self {
        Self { steps, cycles: OnceLock::new() }
    }

    /// Least and greatest stress of the whole duty, rest included.
    pub(super) fn whole(&self) -> (f64, f64) {
        with_rest(&self.steps)
    }

    /// Rainflow cycles of each step; `history` gives the stress at every crank angle of a step, Pa.
    pub(super) fn cycles(&self, history: impl Fn(usize) -> Vec<f64>) -> &[Vec<Cycle>] {
        self.cycles.get_or_init(|| {
            let mut scratch = RainflowScratch::default();
            (0..self.steps.len()).map(|step| counted(&history(step), &mut scratch)).collect()
        })
    }
}

/// Least and greatest stress of all steps, rest included.
pub(super) fn with_rest(steps: &[(f64, f64)]) -> (f64, f64) {
    steps.iter().fold((0.0, 0.0), |all, step| (all.0.min(step.0), all.1.max(step.1)))
}

/// From rest to the extremes of all steps and back.
pub(super) fn start_and_stop(steps: &[(f64, f64)]) -> Cycle {
    let (low, high) = with_rest(steps);
    Cycle { range: high - low, mean: f64::midpoint(high, low), count: 1.0 }
}

/// Cycles of one history that repeats; one that cannot be counted is a cycle that nothing survives.
pub(super) fn counted(history: &[f64], scratch: &mut RainflowScratch) -> Vec<Cycle> {
    let mut cycles = Vec::new();
    match rainflow_repeating(history, scratch, |cycle| cycles.push(cycle)) {
        Ok(()) => cycles,
        Err(_) => vec![Cycle { range: f64::INFINITY, mean: f64::INFINITY, count: 1.0 }],
    }
}

/// Least and greatest of a history.
pub(super) fn extremes(history: impl Iterator<Item = f64>) -> (f64, f64) {
    history.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), s| (low.min(s), high.max(s)))
}
