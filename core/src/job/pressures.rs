use super::assumption::{Assumption, Origin, Quantity};
use super::error::JobError;
use super::scenario::{EngineScenario, Scenario};
use crate::engine::{Cylinder, DEFAULT_SAMPLES, PressureTrace};

/// Names of the burn in the list of assumptions.
pub(super) const BURN_START: &str = "start of burning before top";
pub(super) const BURN_DURATION: &str = "duration of burning";

/// A share nearer to 1 than this is not told.
const TOLD: f64 = 1e-6;

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

    /// Tells in a list of assumptions how a stated peak pressure is met: by a burn that is moved, or by less charge or other
    /// heat where no burn meets it. A peak out of reach is told where the pressure is asked for.
    pub(crate) fn tell_burn(&self, cylinder: &Cylinder, list: &mut Vec<Assumption>) {
        let (Some(peak), None) = (self.peak_pressure, &self.measured) else { return };
        let Ok(cycle) = self.cycle.scaled_to_peak(cylinder, peak, DEFAULT_SAMPLES) else { return };
        let met = "moved so that the peak is the stated one; the heat of the fuel is kept";
        for (name, value) in
            [(BURN_START, -cycle.burn_start_rad.to_degrees()), (BURN_DURATION, cycle.burn_duration_rad.to_degrees())]
        {
            for entry in list.iter_mut().filter(|entry| entry.name == name) {
                entry.value = Quantity::Number(value);
                entry.reference = Some(met.into());
            }
        }
        let mut beyond = |name: &str, share: f64, why: &str| {
            if (share - 1.0).abs() > TOLD {
                list.push(Assumption::number(name, share, "1", Origin::Memory).citing(why));
            }
        };
        let charge = cycle.open_manifold_pa / self.cycle.open_manifold_pa;
        beyond(
            "charge over that of an open throttle",
            charge,
            "the stated peak is lower than the latest and slowest burn gives with a full charge",
        );
        beyond(
            "heat of the fuel over that of the charge",
            cycle.heat_scale,
            "the stated peak lies beyond what any usual burn gives with the charge's own heat",
        );
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
