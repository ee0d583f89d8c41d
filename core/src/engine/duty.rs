use std::collections::BTreeMap;
use std::f64::consts::PI;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::error::DutyError;
use super::gather::{Nearness, near};

/// More steps than anyone writes by hand; each keeps its forces at every crank angle in memory.
const STEP_LIMIT: usize = 1000;

/// Speeds beyond this are a slip of the pen: no piston engine turns so fast.
const SPEED_LIMIT_RPM: f64 = 200_000.0;

/// Some thirty years; longer steps are a slip of the pen too.
pub(super) const TIME_LIMIT_S: f64 = 1e9;

/// One stretch of running at steady speed and throttle.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DutyStep {
    /// Crank speed in turns a minute.
    pub rpm: f64,
    /// 0 closed, 1 fully open.
    pub throttle: f64,
    /// How long the step lasts.
    pub seconds: f64,
}

impl DutyStep {
    /// Crank speed in rad/s.
    pub fn angular_speed_rad_s(&self) -> f64 {
        self.rpm * PI / 30.0
    }

    /// Turns of the crank during the step.
    pub fn revolutions(&self) -> f64 {
        self.rpm / 60.0 * self.seconds
    }
}

/// The running that the engine repeats until something fails: one or more [`DutyStep`]s, each checked.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(try_from = "Vec<DutyStep>", into = "Vec<DutyStep>")]
#[schemars(with = "Vec<DutyStep>")]
pub struct Duty {
    steps: Vec<DutyStep>,
}

impl Duty {
    /// Checks every step: speed above 0 up to 200 000 rpm, throttle within 0..1, time above 0 up to 1e9 s.
    pub fn new(steps: Vec<DutyStep>) -> Result<Self, DutyError> {
        if steps.is_empty() {
            return Err(DutyError::Empty);
        }
        if steps.len() > STEP_LIMIT {
            return Err(DutyError::TooMany { count: steps.len(), limit: STEP_LIMIT });
        }
        for (index, step) in steps.iter().enumerate() {
            let number = index + 1;
            if !(step.rpm > 0.0 && step.rpm <= SPEED_LIMIT_RPM) {
                return Err(DutyError::Speed { number, rpm: step.rpm, limit_rpm: SPEED_LIMIT_RPM });
            }
            if !(0.0..=1.0).contains(&step.throttle) {
                return Err(DutyError::Throttle { number, throttle: step.throttle });
            }
            if !(step.seconds > 0.0 && step.seconds <= TIME_LIMIT_S) {
                return Err(DutyError::Time { number, seconds: step.seconds, limit_s: TIME_LIMIT_S });
            }
        }
        Ok(Self { steps })
    }

    /// The same running with steps of one speed and throttle joined into the first of them: order does no harm, and each is
    /// worked out once. Joined steps stay within what a step may last. Of more than a hundred different ones those that are
    /// nearly alike are joined too; beside the duty stands how near they had to be.
    #[must_use]
    pub fn gathered(&self) -> (Self, Option<Nearness>) {
        let mut places: BTreeMap<[u64; 2], usize> = BTreeMap::new();
        let mut steps: Vec<DutyStep> = Vec::new();
        for step in &self.steps {
            let alike = [step.rpm.to_bits(), step.throttle.to_bits()];
            match places.get(&alike).map(|&place| &mut steps[place]) {
                Some(known) if known.seconds + step.seconds <= TIME_LIMIT_S => known.seconds += step.seconds,
                _ => {
                    places.insert(alike, steps.len());
                    steps.push(*step);
                }
            }
        }
        let (steps, nearness) = near(steps);
        (Self { steps }, nearness)
    }

    /// Each step in parts, one for each of some shares of its time, in their order; shares above 0 that together make one.
    #[must_use]
    pub(crate) fn parted(&self, shares: &[f64]) -> Self {
        let part = |step: DutyStep| shares.iter().map(move |share| DutyStep { seconds: step.seconds * share, ..step });
        Self { steps: self.steps.iter().copied().flat_map(part).collect() }
    }

    /// The steps in order; never empty.
    pub fn steps(&self) -> &[DutyStep] {
        &self.steps
    }

    /// Duration of one repeat.
    pub fn total_s(&self) -> f64 {
        self.steps.iter().map(|step| step.seconds).sum()
    }

    /// Turns of the crank in one repeat.
    pub fn revolutions(&self) -> f64 {
        self.steps.iter().map(DutyStep::revolutions).sum()
    }

    /// Highest speed of any step.
    pub fn highest_rpm(&self) -> f64 {
        self.steps.iter().map(|step| step.rpm).fold(0.0, f64::max)
    }

    /// The same duty with every speed multiplied by a factor, times and throttles as they were.
    pub fn at_speed_factor(&self, factor: f64) -> Result<Self, DutyError> {
        Self::new(self.steps.iter().map(|step| DutyStep { rpm: step.rpm * factor, ..*step }).collect())
    }
}

impl TryFrom<Vec<DutyStep>> for Duty {
    type Error = DutyError;

    fn try_from(steps: Vec<DutyStep>) -> Result<Self, DutyError> {
        Self::new(steps)
    }
}

impl From<Duty> for Vec<DutyStep> {
    fn from(duty: Duty) -> Self {
        duty.steps
    }
}
