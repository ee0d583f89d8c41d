use std::process::ExitCode;

use layload_core::State;

/// How a command ended, as the exit code says it.
///
/// In the order of weight: of several parts the gravest is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Outcome {
    /// Done; where a verdict was asked for, the part holds: 0.
    Good,
    /// Sections alone were checked and found no fault, which is no answer: 3.
    NoFaultFound,
    /// The part does not reach the wanted life: 1.
    DoesNotHold,
    /// One of several parts gave no answer: 2.
    NoAnswer,
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
            Outcome::NoAnswer => Self::from(BAD_INPUT),
            Outcome::NoFaultFound => Self::from(3),
        }
    }
}
