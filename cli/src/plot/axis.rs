use super::ticks::{Tick, ticks};

/// One axis of a plot.
#[derive(Debug, Clone)]
pub struct Axis {
    /// What is along it, with its unit.
    pub label: String,
    low: f64,
    high: f64,
    powers: bool,
}

impl Axis {
    /// Even steps between two ends, widened where they are one.
    pub fn even(label: &str, low: f64, high: f64) -> Self {
        let room = if high > low { 0.0 } else { 0.5 * low.abs().max(1.0) };
        Self { label: label.into(), low: low - room, high: high + room, powers: false }
    }

    /// Even steps between two ends that are moved outward to round numbers.
    pub fn rounded(label: &str, low: f64, high: f64) -> Self {
        let power = 10_f64.powi((high - low).max(1e-9).log10().floor() as i32);
        let pieces = (high - low) / power;
        let step = if pieces > 5.0 {
            power
        } else if pieces > 2.0 {
            0.5 * power
        } else {
            0.2 * power
        };
        Self::even(label, (low / step).floor() * step, (high / step).ceil() * step)
    }

    /// Powers of ten between two ends above zero, widened to whole powers.
    pub fn powers(label: &str, low: f64, high: f64) -> Self {
        let (low, high) = (low.log10().floor(), high.log10().ceil());
        let high = if high > low { high } else { low + 1.0 };
        Self { label: label.into(), low, high, powers: true }
    }

    /// Where a value lies, 0 at the low end and 1 at the high one; what is beyond lies at the end.
    pub fn share(&self, value: f64) -> f64 {
        let value = if self.powers { value.max(f64::MIN_POSITIVE).log10() } else { value };
        ((value - self.low) / (self.high - self.low)).clamp(0.0, 1.0)
    }

    /// Whether a value lies between the ends.
    pub fn holds(&self, value: f64) -> bool {
        let value = if self.powers { value.max(f64::MIN_POSITIVE).log10() } else { value };
        (self.low..=self.high).contains(&value)
    }

    /// Numbers beside it.
    pub(super) fn ticks(&self) -> Vec<Tick> {
        if !self.powers {
            let inside = |tick: &Tick| (self.low..=self.high).contains(&tick.value);
            return ticks(self.low, self.high).into_iter().filter(inside).collect();
        }
        let (low, high) = (self.low as i32, self.high as i32);
        let stride = ((high - low) / 6 + 1) as usize;
        let label = |power: i32| match power {
            -3..=-1 => format!("{:.*}", power.unsigned_abs() as usize, 10_f64.powi(power)),
            0..=3 => format!("{:.0}", 10_f64.powi(power)),
            4..=6 => format!("{:.0} 000", 10_f64.powi(power - 3)),
            _ => format!("1e{power}"),
        };
        (low..=high).step_by(stride).map(|power| Tick { value: 10_f64.powi(power), label: label(power) }).collect()
    }
}
