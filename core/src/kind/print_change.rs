use crate::job::Scenario;

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
    pub(crate) fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Nozzle => ("nozzle of the printer", "10 K hotter"),
            Self::Chamber => ("air round the print", "20 K warmer"),
            Self::Together => ("parts printed together", "two for each"),
        }
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
