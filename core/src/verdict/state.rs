use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The answer to whether a part reaches the wanted life: the one list of states for every output.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum State {
    /// By the stress field 90 % of parts reach the wanted life, and everything that carries load was checked.
    Holds,
    /// The same, but most of the uncertainty comes from values nobody measured: a reason to test, not to trust.
    HoldsUnproven,
    /// By the stress field it holds in what was checked; something that carries load was not, and could turn the answer.
    HoldsUnchecked,
    /// Sections alone were checked and no fault was found. They do not see fillets, pockets and blends, so this is no
    /// answer.
    NoFaultFound,
    /// It does not reach the wanted life.
    Fails,
}

/// What an answer rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Basis {
    /// Whether the stress field was solved.
    pub field: bool,
    /// Whether everything that carries load was checked.
    pub all_checked: bool,
    /// Whether less than half of the uncertainty comes from values nobody measured.
    pub well_founded: bool,
}

impl Basis {
    /// Of a stress field whose part was not asked what else of it carries load.
    pub const CHECKED: Self = Self { field: true, all_checked: false, well_founded: false };

    /// Of a look at sections alone.
    pub const SECTIONS: Self = Self { field: false, all_checked: false, well_founded: false };
}

impl State {
    /// From the margin of all modes together and what that rests on.
    pub fn of(margin: f64, basis: Basis) -> Self {
        // A margin that is no number reaches nothing.
        let reaches = margin >= 1.0;
        if !reaches {
            Self::Fails
        } else if !basis.field {
            Self::NoFaultFound
        } else if !basis.all_checked {
            Self::HoldsUnchecked
        } else if !basis.well_founded {
            Self::HoldsUnproven
        } else {
            Self::Holds
        }
    }

    /// Whether it holds; none where only sections were checked and found no fault.
    pub fn holds(self) -> Option<bool> {
        match self {
            Self::Holds | Self::HoldsUnproven | Self::HoldsUnchecked => Some(true),
            Self::NoFaultFound => None,
            Self::Fails => Some(false),
        }
    }

    /// In a word or a few, as the answer begins.
    pub fn word(self) -> &'static str {
        match self {
            Self::Holds => "HOLDS",
            Self::HoldsUnproven => "HOLDS, unproven",
            Self::HoldsUnchecked => "HOLDS, not all checked",
            Self::NoFaultFound => "NO FAULT FOUND",
            Self::Fails => "FAILS",
        }
    }

    /// The word with all that belongs to it, where no sentence follows.
    pub fn told(self) -> &'static str {
        match self {
            Self::Holds => "HOLDS",
            Self::HoldsUnproven => "HOLDS, unproven: most values were not measured",
            Self::HoldsUnchecked => "HOLDS, not all checked: something that carries load was left out",
            Self::NoFaultFound => "NO FAULT FOUND by sections, which do not see fillets, pockets and blends",
            Self::Fails => "FAILS",
        }
    }

    /// As it stands in JSON.
    pub fn key(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::HoldsUnproven => "holds-unproven",
            Self::HoldsUnchecked => "holds-unchecked",
            Self::NoFaultFound => "no-fault-found",
            Self::Fails => "fails",
        }
    }
}
