use std::process::ExitCode;

use layload_core::State;

/// How a command ended, as the exit code says it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Outcome {
    /// Done; where a verdict was asked for, the part holds: 0.
    Good,
    /// The part does not reach the wanted life: 1.
    DoesNotHold,
    /// Sections alone were looked at and found no fault, which is no answer: 3.
    NoFaultFound,
}

impl From<State> for Outcome {
    fn from(state: State) -> Self {
        match state {
            State::Holds | State::HoldsUnproven | State::HoldsUnchecked => Self::Good,
            State::NoFaultFound => Self::NoFaultFound,
            State::Fails => Self::DoesNotHold,
        }
    }
}

/// Bad input of any kind.
pub(crate) const BAD_INPUT: u8 = 2;

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Good => Self::SUCCESS,
            Outcome::DoesNotHold => Self::from(1),
            Outcome::NoFaultFound => Self::from(3),
        }
    }
}
