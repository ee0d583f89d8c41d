use std::sync::Arc;

use super::assumption::{Assumption, Origin, Quantity};
use super::error::JobError;
use super::scenario::{EngineScenario, Scenario};
use crate::engine::{Cylinder, DEFAULT_SAMPLES, Duty, DutyStep, PressureTrace};

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

/// Pressure over the cycle at every throttle of a duty, and for each class of peaks.
pub(crate) struct Pressures {
    /// The duty, each step parted by class of peaks.
    pub(crate) duty: Duty,
    /// One for each of its steps, by index into `cycles`.
    pub(crate) of_step: Vec<usize>,
    /// Each once.
    pub(crate) cycles: Vec<CyclePressure>,
}

/// Pressure over one cycle.
pub(crate) struct CyclePressure {
    throttle: f64,
    /// As it presses.
    pub(crate) trace: PressureTrace,
    /// Of the mean cycle at this throttle, by which heat goes.
    pub(crate) mean: Arc<PressureTrace>,
}

impl Pressures {
    /// Those of a job in its cylinder.
    pub(crate) fn of(scenario: &Scenario, cylinder: &Cylinder) -> Result<Self, JobError> {
        let engine = &scenario.engine;
        let classes = engine.peaks.classes();
        let mut found = Self { duty: scenario.duty_by_peaks(), of_step: Vec::new(), cycles: Vec::new() };
        for DutyStep { throttle, .. } in scenario.duty.steps() {
            let known = found.cycles.iter().position(|cycle| cycle.throttle == *throttle);
            let first = known.unwrap_or(found.cycles.len());
            found.of_step.extend(first..first + classes.len());
            if known.is_none() {
                let mean = Arc::new(engine.pressure(cylinder, *throttle)?);
                found.cycles.extend(classes.iter().map(|class| CyclePressure {
                    throttle: *throttle,
                    trace: mean.raised(class.times, engine.crankcase_pressure),
                    mean: mean.clone(),
                }));
            }
        }
        Ok(found)
    }

    /// Highest pressure of the mean cycle at the widest throttle, Pa.
    pub(crate) fn peak(&self) -> f64 {
        let widest = self.cycles.iter().max_by(|a, b| a.throttle.total_cmp(&b.throttle));
        widest.map_or(0.0, |cycle| cycle.mean.peak().pressure_pa)
    }
}
