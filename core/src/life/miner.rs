use super::basquin::StressLife;
use super::error::LifeError;
use super::mean_stress::{EquivalentAmplitude, MeanStress};
use super::rainflow::Cycle;

/// Damage of counted cycles: the sum of count over cycles to failure (Palmgren 1924, Miner 1945).
///
/// Failure is a sum of one. Infinite if any cycle reaches the ultimate strength. The sum runs in the order given.
pub fn damage_of_cycles(
    cycles: impl IntoIterator<Item = Cycle>,
    rule: MeanStress,
    line: &StressLife,
    ultimate_pa: f64,
) -> f64 {
    let mut damage = 0.0;
    for cycle in cycles {
        damage += match rule.equivalent(cycle.amplitude(), cycle.mean, ultimate_pa) {
            EquivalentAmplitude::Reversed(amplitude_pa) => cycle.count * line.damage_per_cycle(amplitude_pa),
            EquivalentAmplitude::Broken => f64::INFINITY,
        };
    }
    damage
}

/// One stretch of a duty: how fast it does damage and how long it lasts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DamageStep {
    /// Damage a second, all causes added; not negative, may be infinite.
    pub damage_per_s: f64,
    /// Duration, finite and above zero.
    pub seconds: f64,
}

/// Life at a duty repeated until the damage is one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DutyLife {
    /// Damage of one repeat.
    pub damage_per_repeat: f64,
    /// Repeats to failure, the inverse: infinite if nothing does damage.
    pub repeats: f64,
    /// Time to failure at the mean damage rate of the duty.
    pub seconds: f64,
    /// Time to failure with the steps in their order, so that the harmful step of the last, unfinished repeat counts
    /// when it comes. Equal to `seconds` for a single step.
    pub ordered_seconds: f64,
}

/// Adds up the steps of a duty, in the order given.
pub fn duty_life(steps: &[DamageStep]) -> Result<DutyLife, LifeError> {
    if steps.is_empty() {
        return Err(LifeError::NoSteps);
    }
    let (mut damage_per_repeat, mut total_s) = (0.0, 0.0);
    for step in steps {
        // An infinite rate is allowed, so the range check is written out.
        if step.damage_per_s.is_nan() || step.damage_per_s < 0.0 {
            return Err(LifeError::OutOfRange {
                quantity: "damage rate",
                range: "a number from 0",
                value: step.damage_per_s,
            });
        }
        let seconds = LifeError::positive("time of a step", step.seconds)?;
        damage_per_repeat += step.damage_per_s * seconds;
        total_s += seconds;
    }
    let repeats = 1.0 / damage_per_repeat;
    Ok(DutyLife {
        damage_per_repeat,
        repeats,
        seconds: repeats * total_s,
        ordered_seconds: ordered_seconds(steps, damage_per_repeat, total_s),
    })
}

fn ordered_seconds(steps: &[DamageStep], damage_per_repeat: f64, total_s: f64) -> f64 {
    let whole_repeats = (1.0 / damage_per_repeat).floor();
    if !whole_repeats.is_finite() {
        return f64::INFINITY;
    }
    let mut left = 1.0 - whole_repeats * damage_per_repeat;
    // With an infinite rate no repeat is whole, and zero times infinity is not a number.
    if left.is_nan() {
        left = 1.0;
    }
    let mut seconds = whole_repeats * total_s;
    if left <= 0.0 {
        return seconds;
    }
    for step in steps {
        let damage = step.damage_per_s * step.seconds;
        if damage >= left {
            return seconds + left / step.damage_per_s;
        }
        left -= damage;
        seconds += step.seconds;
    }
    seconds
}
