use super::limit::{Unusual, range, rounded};
use crate::job::error::JobError;
use crate::job::plausible::Warning;
use crate::material::Source;

/// A number with its unit, in words.
#[derive(Debug, Clone, Copy)]
pub(super) struct Told {
    pub(super) what: &'static str,
    pub(super) value: f64,
    pub(super) unit: &'static str,
}

/// A number held against another of the same engine or part.
#[derive(Debug, Clone)]
pub(super) struct Pair {
    /// Where the number stands that is likely to be wrong.
    pub(super) key: &'static str,
    /// That number.
    pub(super) number: Told,
    /// What it is held against.
    pub(super) with: Told,
    /// What the number is held against as a factor, in its own unit.
    pub(super) scale: f64,
    /// Refused outside of these factors.
    pub(super) possible: (f64, f64),
    /// Warned of outside of these factors.
    pub(super) usual: (f64, f64),
    /// Where `usual` comes from.
    pub(super) source: Source,
    /// What is likely to have gone wrong, to follow "check KEY".
    pub(super) slip: &'static str,
}

impl Pair {
    /// Refuses what cannot belong together and warns of what hardly does.
    pub(super) fn see(&self, warnings: &mut Vec<Warning>) -> Result<(), JobError> {
        let Self { number, with, .. } = self;
        let factor = number.value / self.scale;
        let within = |(low, high): (f64, f64)| (low..=high).contains(&factor);
        let scaled = |(low, high): (f64, f64)| (low * self.scale, high * self.scale);
        if !within(self.possible) {
            return Err(JobError::Impossible {
                what: number.what,
                value: rounded(number.value),
                unit: number.unit,
                with: with.what,
                other: rounded(with.value),
                other_unit: with.unit,
                key: self.key,
                usual: range(scaled(self.usual), number.unit),
            });
        }
        if !within(self.usual) {
            let (what, value, unit) = (number.what, number.value, number.unit);
            let beside = Some(format!("{} of {} {}", with.what, rounded(with.value), with.unit));
            let unusual = Unusual { what, value, unit, beside, usual: scaled(self.usual) };
            warnings.push(unusual.warning(self.key.into(), self.source, self.slip));
        }
        Ok(())
    }
}
