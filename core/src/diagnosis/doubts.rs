//! What of the inputs a break contradicts, in sentences.

use strum::VariantArray;

use super::Seen;
use super::cause::{Cause, ln_looks};
use super::expected::Expected;
use super::look::Look;
use super::place::region_of;
use super::signs::chance;
use crate::report::words::numbers::{duration, significant};
use crate::verdict::Mode;

/// Fewer parts than this fail so early, or live so long, by the model: the inputs are in doubt.
const RARE: f64 = 0.05;

/// A margin from which a break by that mode says that something is off, however much is open.
const WIDE: f64 = 1.5;

/// A part measured this much warmer or colder than the model has it, K, is another case (common practice: a thermocouple on a
/// running part is off by some kelvin).
const WARMER: f64 = 15.0;

/// Two looks that no mode has both of in so many breaks do not go together.
const TOGETHER: f64 = 0.08;

/// Everything that the inputs and the break say against each other. `warm` is the temperature measured and the model's, °C.
pub(crate) fn doubts(
    expected: &[Expected],
    causes: &[Cause],
    seen: &Seen,
    regions: &[&'static str],
    warm: Option<(f64, f64)>,
) -> Vec<String> {
    let mut list = Vec::new();
    let leading = causes.first().and_then(|cause| cause.mode);
    let leading = leading.and_then(|mode| expected.iter().find(|expected| expected.mode == mode));
    if let Some(mode) = leading {
        list.extend(early(mode, seen.seconds));
    }
    list.extend(late(expected, seen.seconds, leading.map(|mode| mode.mode)));
    list.extend(leading.and_then(|mode| elsewhere(mode, seen, regions)));
    if let Some((measured, model)) = warm.filter(|(measured, model)| (measured - model).abs() > WARMER) {
        list.push(format!(
            "The part was at {measured:.0} °C, by the model at {model:.0} °C: correct the temperatures around it, its cooling or \
             the length of its runs in the job."
        ));
    }
    list.extend(absent(expected, causes, &seen.looks));
    list.extend(apart(&seen.looks));
    list
}

/// That it broke sooner than the inputs allow.
fn early(mode: &Expected, seconds: Option<f64>) -> Option<String> {
    let share = mode.failed_within();
    if share >= RARE && mode.margin < WIDE {
        return None;
    }
    let after =
        seconds.map_or_else(|| "within the wanted life".into(), |seconds| format!("within {}", duration(seconds)));
    Some(format!(
        "By the inputs {} fails by {} {after}: the margin is {}. Look for {}.",
        few(share),
        mode.mode.words(),
        significant(mode.margin),
        suspects(mode.mode, mode.margin)
    ))
}

/// A small share of parts in words.
fn few(share: f64) -> String {
    if share < 1e-6 { "less than one part in a million".into() } else { format!("one part in {:.0}", 1.0 / share) }
}

/// That it ran longer than the inputs allow some other mode.
fn late(expected: &[Expected], seconds: Option<f64>, leading: Option<Mode>) -> Option<String> {
    let seconds = seconds?;
    let most = expected.iter().filter(|mode| Some(mode.mode) != leading);
    let most = most.max_by(|a, b| a.failed_within().total_cmp(&b.failed_within()))?;
    (most.failed_within() > 1.0 - RARE).then(|| {
        format!(
            "By the inputs nearly every part would have failed by {} before {} ({}): strength or load there is better than the job \
             says.",
            most.mode.words(),
            duration(seconds),
            most.place
        )
    })
}

/// That it broke at another place than the model's.
fn elsewhere(mode: &Expected, seen: &Seen, regions: &[&'static str]) -> Option<String> {
    let place = seen.place.as_ref()?;
    let own = region_of(&mode.place, regions)?;
    (own != place.region).then(|| {
        format!(
            "It broke at the {}; by the model {} comes first at {}. Compare wall, fillet, bore and seams of the print at the {} \
             with the drawing.",
            place.region,
            mode.mode.words(),
            mode.place,
            place.region
        )
    })
}

/// A mode that the model does not have here looks so many times more like it than the likeliest cause.
const LIKER: f64 = 4.0;

/// That it looks like a mode that the model does not have of this part as printed and driven.
fn absent(expected: &[Expected], causes: &[Cause], looks: &[Look]) -> Option<String> {
    let leading = ln_looks(looks, causes.first()?.mode);
    let others = Mode::VARIANTS.iter().copied().filter(|mode| !expected.iter().any(|expected| expected.mode == *mode));
    let best = others.map(|mode| (mode, ln_looks(looks, Some(mode)))).max_by(|a, b| a.1.total_cmp(&b.1));
    let (mode, _) = best.filter(|(_, like)| *like > leading + libm::log(LIKER))?;
    Some(format!(
        "It looks more like {}, which the model does not have of this part as the job has it: compare the way up it was printed, what \
         is pressed in and what it runs on with the job.",
        mode.words()
    ))
}

/// Looks that do not go together.
fn apart(looks: &[Look]) -> Vec<String> {
    let both = |a: Look, b: Look| {
        let modes = Mode::VARIANTS.iter().copied().map(Some).chain([None]);
        modes.map(|mode| chance(a, mode).min(chance(b, mode))).fold(0.0, f64::max)
    };
    let mut list = Vec::new();
    for (k, a) in looks.iter().enumerate() {
        for b in looks.iter().skip(k + 1) {
            // A cause that is none of the modes has anything a little.
            let known = Mode::VARIANTS
                .iter()
                .copied()
                .map(|mode| chance(*a, Some(mode)).min(chance(*b, Some(mode))))
                .fold(0.0, f64::max);
            if known < TOGETHER && both(*a, *b) < 0.3 {
                list.push(format!(
                    "No failure mode has both: {}; {}. Perhaps one came first and the other after it: say only what was first.",
                    a.told(),
                    b.told()
                ));
            }
        }
    }
    list
}

/// What to look for where a part failed by a mode at a margin that says it should not.
fn suspects(mode: Mode, margin: f64) -> String {
    let share = (100.0 / margin.max(1.0)).round();
    match mode {
        Mode::FatigueAcrossLayers | Mode::CreepRuptureAcrossLayers | Mode::OverloadAcrossLayers => format!(
            "a bond between layers below {share} % of the card's (wet spool, cold chamber, fan), a notch or a void at a layer, or \
             a bore out of size"
        ),
        Mode::FatigueInLayerPlane | Mode::CreepRuptureInLayerPlane | Mode::OverloadInLayerPlane => format!(
            "beads below {share} % of the card's strength, gaps between beads (weigh the part), a notch, or a load that is not in \
             the job"
        ),
        Mode::Crushing | Mode::Buckling => {
            "gas force above the job's (early ignition, detonation, liquid in the cylinder), a light infill, or a hot shank".into()
        }
        Mode::BearingPressure => "a bore or pin out of size, a pin that bears on its edge, or a hot eye".into(),
        Mode::SplitByRing => "a ring above its size, a bore below it, or a ring pressed in crooked".into(),
        Mode::LooseRing | Mode::OpenJoint => "an eye hotter than in the job, or less interference or preload than in it".into(),
        Mode::Softening | Mode::SelfHeating => {
            "surroundings hotter than in the job, longer runs, less cooling, or a wet or wrong plastic".into()
        }
        Mode::SkirtPressure | Mode::Seizure => "a bore or skirt out of size, a hotter piston, or oil that did not reach it".into(),
        Mode::HeadContact => "a gap to the head below the job's, play in the bearings, or a hotter rod".into(),
        Mode::JournalHeat | Mode::JournalWear => "a dry or dirty pin, too little clearance, or grit in the oil".into(),
    }
}
