use crate::report::{Coverage, CoveredReport, Report};

use super::answer::capital;
use super::numbers::significant;

/// Most places named that carry load and were not checked.
const MOST: usize = 2;

/// What was not checked: the places that carry load, then how many effects and the largest; none where all was checked.
pub(super) fn unchecked(report: &Report) -> Option<String> {
    let effect = |name: &&String| report.effects.iter().any(|effect| effect.effect == **name);
    let places: Vec<&String> = report.verdict.unchecked.iter().filter(|name| !effect(name)).collect();
    let mut told: Vec<String> = places.iter().take(MOST).map(|place| format!("{}.", capital(place))).collect();
    match places.len().saturating_sub(MOST) {
        0 => {}
        1 => told.push("One more place.".into()),
        more => told.push(format!("{more} more places.")),
    }
    told.extend(left_out(report));
    (!told.is_empty()).then(|| told.join(" "))
}

/// The effects that are not in the answer, counted, with the largest of them.
fn left_out(report: &Report) -> Option<String> {
    let not = || report.effects.iter().filter(|effect| effect.state == Coverage::NotChecked);
    let largest = not().reduce(|most, effect| if effect.factor > most.factor { effect } else { most })?;
    let turning = not().filter(|effect| effect.could_turn(report.verdict.margin)).count();
    let turns = match turning {
        _ if report.verdict.margin < 1.0 => String::new(),
        0 => "; none alone could turn the answer".into(),
        count => format!("; {count} could turn the answer"),
    };
    Some(format!(
        "{} effects{turns}. Largest: {} (margin up to {} times lower).",
        not().count(),
        largest.effect,
        significant(largest.factor)
    ))
}

/// The effects in sentences, as they follow the notes on the limits of the estimate.
pub(super) fn effects(report: &Report) -> Vec<String> {
    let told = |effect: &CoveredReport| {
        let most =
            if effect.factor > 1.0 { format!(" (up to {} times)", significant(effect.factor)) } else { String::new() };
        format!("{}, {}{most}: {}.", capital(&effect.effect), effect.state.words(), effect.told)
    };
    report.effects.iter().map(told).collect()
}
