//! What changes of the input do to life and margin of a part of any kind.

use super::assess::{AnyCase, assess, driven};
use super::field::{Driven, Spot};
use super::place::AnyPlace;
use super::prepared::PreparedAny;
use crate::job::{Every, JobError, Scenario};
use crate::kind::{ChangeOutcome, ChangeWords, Changes, PrintChange, changes_of, leaned, moved};
use crate::material::MoistureState;
use crate::print::PrintSettings;
use crate::report::{ChangedInput, ChangedValue};
use crate::units::{MM, ZERO_C};
use crate::verdict::PartStrength;

/// One change of the input.
#[derive(Debug, Clone, Copy)]
enum Change {
    Speed,
    /// A load by its number.
    Load(usize),
    Temperature,
    PinClearance,
    Lean,
    Drying,
    Print(PrintChange),
}

/// What a load is lowered to.
const LESS: f64 = 0.9;

/// A speed is lowered to.
const SLOWER: f64 = 0.95;

/// Kelvin less.
const COOLER: f64 = -10.0;

/// Most loads that are changed one by one.
const MOST_LOADS: usize = 8;

impl Change {
    fn all(prepared: &PreparedAny) -> Vec<Self> {
        let PreparedAny { scenario, given, pins, .. } = prepared;
        let mut list = vec![Self::Temperature, Self::Lean];
        list.extend((0..given.loads.len().min(MOST_LOADS)).map(Self::Load));
        let mut also = |wanted: bool, change: Self| {
            if wanted {
                list.push(change);
            }
        };
        let follows = given.loads.iter().any(|load| load.follows_speed);
        also(follows || matches!(given.history.every, Every::Turns(_)), Self::Speed);
        also(pins.iter().any(|pin| pin.clearance > 0.0), Self::PinClearance);
        also(scenario.moisture == MoistureState::Conditioned, Self::Drying);
        for change in PrintChange::ALL {
            also(scenario.bond.is_some(), Self::Print(change));
        }
        list
    }

    fn words(self) -> ChangeWords {
        match self {
            Self::Speed => (ChangedInput::Speed, "speed", "5 % less"),
            Self::Load(_) => (ChangedInput::Load, "load", "10 % less"),
            Self::Temperature => (ChangedInput::Temperature, "temperature of the part", "10 K less"),
            Self::PinClearance => (ChangedInput::PinClearance, "radial clearance of the pins", "half"),
            Self::Lean => (ChangedInput::BuildDirection, "build direction", "leaned by 10°"),
            Self::Drying => (ChangedInput::Moisture, "water in the plastic", "kept dry"),
            Self::Print(change) => change.words(),
        }
    }

    /// Values that it moves, in the units of the edges.
    fn values(self, prepared: &PreparedAny, after: &Scenario) -> Vec<ChangedValue> {
        let scenario = &prepared.scenario;
        match self {
            Self::Speed => {
                let rpm = scenario.duty.highest_rpm();
                vec![moved("speed", rpm, SLOWER * rpm, "rpm")]
            }
            Self::Load(number) => vec![moved(&prepared.given.loads[number].name, 100.0, 100.0 * LESS, "%")],
            Self::Temperature => {
                let celsius = scenario.temperature - ZERO_C;
                vec![moved("temperature of the part", celsius, celsius + COOLER, "°C")]
            }
            Self::PinClearance => {
                let greatest = prepared.pins.iter().map(|pin| pin.clearance * MM).fold(0.0, f64::max);
                vec![moved("radial clearance of the pins", greatest, 0.5 * greatest, "mm")]
            }
            Self::Print(change) => change.values(scenario, after),
            Self::Lean | Self::Drying => Vec::new(),
        }
    }

    /// The strength with the change made, and the scenario then.
    fn made(self, case: &AnyCase<'_>, spots: &[Spot]) -> Option<(PartStrength<AnyPlace>, Scenario)> {
        let prepared = case.prepared;
        let mut scenario = prepared.scenario.clone();
        let mut how = Driven::as_given(prepared);
        let mut print = prepared.print;
        let mut warmer = 0.0;
        match self {
            Self::Speed => how.speed = SLOWER,
            Self::Load(number) => {
                // Of a spin the load goes with the square of what is changed.
                *how.loads.get_mut(number)? = LESS;
            }
            Self::Temperature => warmer = COOLER,
            Self::PinClearance => how.clearance = 0.5,
            Self::Lean => {
                print =
                    PrintSettings { build: leaned(&print.build), ..print }.checked().map_err(JobError::from).ok()?;
            }
            Self::Drying => scenario.moisture = MoistureState::Dry,
            Self::Print(change) => change.make(&mut scenario),
        }
        if matches!(self, Self::Lean | Self::Print(_)) {
            scenario.bond(&prepared.part.mesh, &print);
        }
        let case = AnyCase { scenario: &scenario, card: &scenario.card, print: &print, warmer, ..*case };
        let loads = matches!(self, Self::Speed | Self::Load(_) | Self::PinClearance);
        let strength = if loads { driven(&case, spots, &how).ok()? } else { assess(&case, spots) };
        Some((strength, scenario))
    }
}

fn outcome(strength: &PartStrength<AnyPlace>) -> ChangeOutcome {
    ChangeOutcome { life: strength.life_at(0.1), margin: strength.margin(), soft: None }
}

/// Every change that makes sense and can be made, largest effect first.
pub(crate) fn changes(case: &AnyCase<'_>, spots: &[Spot], strength: &PartStrength<AnyPlace>) -> Changes {
    let now = outcome(strength);
    let entry = |change: Change| {
        let (then, scenario) = change.made(case, spots)?;
        Some(now.changed(change.words(), change.values(case.prepared, &scenario), outcome(&then)))
    };
    // None of them is of a size.
    changes_of(&Change::all(case.prepared), (now, now.margin), |change| change.words().0, entry, |_, _| None)
}
