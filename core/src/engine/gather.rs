use std::collections::BTreeMap;

use super::duty::{DutyStep, TIME_LIMIT_S};

/// How near two steps have to be to count as one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nearness {
    /// Difference of their speeds over the lower one.
    pub speed_share: f64,
    /// Difference of their throttles.
    pub throttle: f64,
}

/// Different steps up to which each is worked out for itself.
const DIFFERENT: usize = 100;

/// Tried one after the other until no more than [`DIFFERENT`] are left. The last costs less than two per cent of a force, to
/// the unfavourable side; a recorded run of a thousand speeds would else take minutes.
const WIDTHS: [Nearness; 3] = [
    Nearness { speed_share: 0.0025, throttle: 0.01 },
    Nearness { speed_share: 0.005, throttle: 0.02 },
    Nearness { speed_share: 0.01, throttle: 0.04 },
];

/// Steps of which many are nearly alike, with those joined into the fastest and the widest open throttle among them, and how
/// near they had to be; as they are where there are few.
pub(super) fn near(steps: Vec<DutyStep>) -> (Vec<DutyStep>, Option<Nearness>) {
    if steps.len() <= DIFFERENT {
        return (steps, None);
    }
    let mut joined = (Vec::new(), None);
    for width in WIDTHS {
        joined = (joined_within(&steps, width), Some(width));
        if joined.0.len() <= DIFFERENT {
            break;
        }
    }
    joined
}

fn joined_within(steps: &[DutyStep], width: Nearness) -> Vec<DutyStep> {
    let cell = |step: &DutyStep| {
        let speed = libm::log(step.rpm) / libm::log(1.0 + width.speed_share);
        [speed.floor() as i64, (step.throttle / width.throttle).floor() as i64]
    };
    let mut places: BTreeMap<[i64; 2], usize> = BTreeMap::new();
    let mut joined: Vec<DutyStep> = Vec::new();
    for step in steps {
        match places.get(&cell(step)).map(|&place| &mut joined[place]) {
            Some(known) if known.seconds + step.seconds <= TIME_LIMIT_S => {
                known.rpm = known.rpm.max(step.rpm);
                known.throttle = known.throttle.max(step.throttle);
                known.seconds += step.seconds;
            }
            _ => {
                places.insert(cell(step), joined.len());
                joined.push(*step);
            }
        }
    }
    joined
}
