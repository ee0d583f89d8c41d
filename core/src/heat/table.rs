use super::error::HeatError;

/// Most entries of a table.
const ENTRY_LIMIT: usize = 1_000_000;

/// A property of temperature at equal steps, linear between them and constant beyond: quick where a solver asks a
/// thousand times.
#[derive(Debug, Clone, PartialEq)]
pub struct TemperatureTable {
    from: f64,
    step: f64,
    values: Vec<f64>,
}

impl TemperatureTable {
    /// Asks `property` from one temperature to another (K), both included, in steps no wider than `step`.
    pub fn new(from: f64, to: f64, step: f64, property: impl Fn(f64) -> f64) -> Result<Self, HeatError> {
        let from = HeatError::positive("lowest temperature", from)?;
        let span = HeatError::positive("range of temperature", to - from)?;
        let step = HeatError::positive("temperature step", step)?;
        let steps = (span / step).ceil().max(1.0).min(usize::MAX as f64) as usize;
        HeatError::count("entries", steps, 1, ENTRY_LIMIT)?;
        let step = span / steps as f64;
        let values: Vec<f64> = (0..=steps).map(|index| property(from + step * index as f64)).collect();
        match values.iter().position(|value| !value.is_finite()) {
            Some(index) => Err(HeatError::NotFinite { index }),
            None => Ok(Self { from, step, values }),
        }
    }

    /// The property at a temperature, K.
    pub fn at(&self, temperature: f64) -> f64 {
        let last = self.values.len() - 1;
        let place = ((temperature - self.from) / self.step).clamp(0.0, last as f64);
        let below = (place.floor() as usize).min(last - 1);
        let share = place - below as f64;
        self.values[below] + share * (self.values[below + 1] - self.values[below])
    }
}
