use super::outcome::{ChangeWords, moved};
use crate::job::Scenario;
use crate::report::{ChangedInput, ChangedValue};
use crate::units::ZERO_C;

/// A change of the print's settings by which its layers bond otherwise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum PrintChange {
    Nozzle,
    Chamber,
    Together,
}

impl PrintChange {
    pub(crate) const ALL: [Self; 3] = [Self::Nozzle, Self::Chamber, Self::Together];

    /// What is changed, and how.
    pub(crate) fn words(self) -> ChangeWords {
        match self {
            Self::Nozzle => (ChangedInput::Nozzle, "nozzle temperature", "10 K more"),
            Self::Chamber => (ChangedInput::Chamber, "air around the print", "20 K more"),
            Self::Together => (ChangedInput::PartsTogether, "parts printed together", "twice as many"),
        }
    }

    /// The value that it moves, of a job before and after it.
    pub(crate) fn values(self, before: &Scenario, after: &Scenario) -> Vec<ChangedValue> {
        let Some((before, after)) = before.warmth.zip(after.warmth) else { return Vec::new() };
        let value = match self {
            Self::Nozzle => moved("nozzle temperature", before.nozzle - ZERO_C, after.nozzle - ZERO_C, "°C"),
            Self::Chamber => moved("air around the print", before.chamber - ZERO_C, after.chamber - ZERO_C, "°C"),
            Self::Together => moved("printed together", before.together, after.together, "parts"),
        };
        vec![value]
    }

    /// Makes it, where the job says how warm the print is; the bond is still to be worked out.
    pub(crate) fn make(self, scenario: &mut Scenario) {
        let Some(warmth) = &mut scenario.warmth else { return };
        match self {
            Self::Nozzle => warmth.nozzle += 10.0,
            Self::Chamber => warmth.chamber += 20.0,
            Self::Together => warmth.together *= 2.0,
        }
    }
}
