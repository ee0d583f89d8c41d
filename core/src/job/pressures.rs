use super::error::JobError;
use super::scenario::{EngineScenario, Scenario};
use crate::engine::{Cylinder, DEFAULT_SAMPLES, PressureTrace};

impl EngineScenario {
    /// Pressure over the cycle at a throttle.
    pub(crate) fn pressure(&self, cylinder: &Cylinder, throttle: f64) -> Result<PressureTrace, JobError> {
        if let Some(measured) = &self.measured {
            return Ok(measured.clone());
        }
        let cycle = match self.peak_pressure {
            Some(peak) => self.cycle.scaled_to_peak(cylinder, peak, DEFAULT_SAMPLES)?,
            None => self.cycle,
        };
        Ok(cycle.run(cylinder, throttle, DEFAULT_SAMPLES)?.trace)
    }
}

/// Pressure over the cycle at every throttle of a duty.
pub(crate) struct Pressures {
    /// One for each step of the duty, by index into `traces`.
    pub(crate) of_step: Vec<usize>,
    /// Throttles with their pressure, each once.
    pub(crate) traces: Vec<(f64, PressureTrace)>,
}

impl Pressures {
    /// Those of a job in its cylinder.
    pub(crate) fn of(scenario: &Scenario, cylinder: &Cylinder) -> Result<Self, JobError> {
        let mut found = Self { of_step: Vec::new(), traces: Vec::new() };
        for step in scenario.duty.steps() {
            let known = found.traces.iter().position(|(throttle, _)| *throttle == step.throttle);
            found.of_step.push(known.unwrap_or(found.traces.len()));
            if known.is_none() {
                found.traces.push((step.throttle, scenario.engine.pressure(cylinder, step.throttle)?));
            }
        }
        Ok(found)
    }

    /// Highest pressure at the widest throttle, Pa.
    pub(crate) fn peak(&self) -> f64 {
        let widest = self.traces.iter().max_by(|a, b| a.0.total_cmp(&b.0));
        widest.map_or(0.0, |(_, trace)| trace.peak().pressure_pa)
    }
}
