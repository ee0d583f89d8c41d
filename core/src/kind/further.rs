use crate::numeric::{halved, map_in_order};
use crate::report::{ChangedInput, ChangedValue, ChangesTogether, FurtherChange, SensitivityReport};

use super::outcome::{ChangeOutcome, ranked};

/// Steps in which sizes are told, m: less is not worth drawing.
const STEP: f64 = 1e-4;

/// How much larger a size is looked at. Beyond that another place takes over, which sections raised to the field of the part as
/// it is do not know: at 1.3 they promise 3 to 8 % too much.
const FACTORS: [f64; 2] = [1.1, 1.2];

/// Gains of margin below this are not worth a larger part.
const WORTH: f64 = 1.01;

/// What changes of the input do.
#[derive(Debug, Clone, Default)]
pub struct Changes {
    /// Each by itself, the largest effect first.
    pub list: Vec<SensitivityReport>,
    /// The two best together, where the part fails.
    pub together: Option<ChangesTogether>,
}

/// A part with one size changed.
pub(crate) struct Resized {
    pub(crate) outcome: ChangeOutcome,
    pub(crate) moves: Vec<ChangedValue>,
    /// Mass that the part gains, kg.
    pub(crate) mass_change: Option<f64>,
}

/// Takes a size of so many metres further, up to where the margin is `enough`; `at` resizes it by a factor.
pub(crate) fn further(
    now: ChangeOutcome,
    enough: f64,
    size: f64,
    at: &dyn Fn(f64) -> Option<Resized>,
) -> Option<FurtherChange> {
    let told = |resized: Resized| {
        let (life_factor, margin_factor) = now.factors(resized.outcome);
        let mass_change_g = resized.mass_change.map(|mass| mass * 1e3);
        FurtherChange { moves: resized.moves, life_factor, margin_factor, mass_change_g }
    };
    let steps = |factor: f64| (size * factor / STEP).ceil();
    let of_steps = |steps: f64| at(steps * STEP / size);
    let mut best: Option<Resized> = None;
    // At the size itself there is no step to take.
    let mut short = (size / STEP).floor();
    for factor in FACTORS {
        let here = of_steps(steps(factor))?;
        if here.outcome.margin >= enough {
            let near = |good: f64, bad: f64| good - bad <= 1.0;
            let mut least = here;
            halved((steps(factor), short), near, |steps| {
                let here = of_steps(steps.round()).ok_or(())?;
                let reaches = here.outcome.margin >= enough;
                if reaches {
                    least = here;
                }
                Ok::<_, ()>(reaches)
            })
            .ok()?;
            return Some(told(least));
        }
        short = steps(factor);
        if best.as_ref().is_none_or(|best| here.outcome.margin > best.outcome.margin) {
            best = Some(here);
        }
    }
    best.filter(|best| best.outcome.margin >= WORTH * now.margin).map(told)
}

/// What each of a list of changes does to a part whose answer tells a margin: by itself, of a size how far it must go where the
/// part fails, and the two best together.
///
/// `entry` makes a change; `further` takes one of a size further, with another made or not.
pub(crate) fn changes_of<C: Copy + Sync>(
    changes: &[C],
    (now, margin): (ChangeOutcome, f64),
    key: impl Fn(C) -> ChangedInput,
    entry: impl Fn(C) -> Option<SensitivityReport> + Sync,
    further: impl Fn(C, Option<C>) -> Option<FurtherChange> + Sync,
) -> Changes {
    let found = map_in_order(changes.len(), |k| {
        let entry = entry(changes[k])?;
        let further = if margin < 1.0 { further(changes[k], None) } else { None };
        Some(SensitivityReport { further, ..entry })
    });
    let list = ranked(found.into_iter().flatten().collect(), now);
    let of = |wanted| changes.iter().copied().find(|change| key(*change) == wanted);
    let together = best_two(&list).and_then(|(size, other)| {
        let both = further(of(size)?, Some(of(other)?))?;
        Some(ChangesTogether { size, other, both })
    });
    Changes { list, together }
}

/// Which two changes of a list are the best to make together: a size, and something else but how the engine is run.
fn best_two(list: &[SensitivityReport]) -> Option<(ChangedInput, ChangedInput)> {
    let gain = |entry: &SensitivityReport| entry.further.as_ref().map_or(entry.margin_factor, |far| far.margin_factor);
    let best = |entries: &mut dyn Iterator<Item = &SensitivityReport>| {
        entries.filter(|entry| gain(entry) >= WORTH).reduce(|a, b| if gain(b) > gain(a) { b } else { a }).map(|e| e.key)
    };
    let size = best(&mut list.iter().filter(|entry| entry.further.is_some()))?;
    let other = best(&mut list.iter().filter(|entry| entry.further.is_none() && !entry.key.is_how_it_is_run()))?;
    Some((size, other))
}
