//! Where the model is weak for the case at hand.

use super::build::{Parts, peak_factor};
use super::pins::PinForces;
use crate::job::PartTemperature;
use crate::kind::report::{SINGLE_BEAD, UNTOLD, at_corners, few_cells, few_sides};
use crate::material::Lay;
use crate::rod::model::Region;
use crate::rod::place::End;
use crate::rod::prepared::PreparedRod;
use crate::stress::{EyeFamily, EyeModel};
use crate::units::{MM, ZERO_C};
use crate::verdict::wall_lay;

fn heat_notes(parts: &Parts<'_>, say: &mut impl FnMut(&str)) {
    let scenario = &parts.prepared.scenario;
    match scenario.part_temperature {
        PartTemperature::Given => say(
            "Strength is taken at the given part temperature everywhere; the heat of the loads is estimated for information.",
        ),
        PartTemperature::Settled => say(
            "Each place has the strength at its own temperature in long running, from the heat of the loads, the air and the pins. \
             Eyes are as hot as their pins, plus the heat of friction where a pin runs in the plastic.",
        ),
        PartTemperature::AfterRun { seconds, .. } => say(&format!(
            "Each place has the strength at its own temperature at the end of a run of {seconds:.0} s from cold. The whole run \
             counts as that hot, and eyes as hot as their pins."
        )),
    }
    if parts.warmth.peak.is_none() {
        say("At this duty the shank heats itself without limit; only short runs end before that.");
    }
    if scenario.card.softening() - parts.temperatures.peak() < 20.0 {
        say("The part comes within 20 °C of softening: its strength there is very uncertain.");
    }
}

/// Every weakness, in sentences.
pub(crate) fn notes(parts: &Parts<'_>) -> Vec<String> {
    let mut notes = Vec::new();
    let mut say = |text: &str| notes.push(text.to_string());
    heat_notes(parts, &mut say);
    if parts.field.is_some() {
        say(
            "If the stress field finds less margin than sections and handbook factors, the field counts. Speed, heat and changes are \
             then worked out with the stress of that eye or station raised to it. Its pins are rigid, without friction, and \
             press evenly along their length. Stress in small fillets comes out up to 7 % too low.",
        );
    } else {
        say(
            "Eyes are round rings of their thinnest wall, with the stress factors of a plane contact study. Fillets, pockets and \
             blends are not seen.",
        );
    }
    if wall_lay(&parts.model.print) == Lay::Lines {
        say(SINGLE_BEAD);
    }
    if parts.model.stations.iter().any(|station| station.makeup.untold) {
        say(UNTOLD);
    }
    for end in [End::Small, End::Big] {
        eye_notes(parts, end, &mut say);
    }
    notes
}

/// A fit looser than given by this much is within what heat and creep do to plastic, m.
const OPENED: f64 = 0.05e-3;

/// Shank over eye width below which the contact study's own shank is plainly wider. It has 0.7; one of half the eye's width
/// raises the peak at the bore by 5 to 19 % under a pull (variants of the study), and the plain sample rod, whose shank at
/// the big end has 0.37, carries 2.2 times what sections find on the outside where eye and shank meet.
const NARROW_SHANK: f64 = 0.6;

/// Narrowest eye of the contact study, outer width over bore diameter.
const NARROWEST: f64 = 1.25;

fn eye_notes(parts: &Parts<'_>, end: End, say: &mut impl FnMut(&str)) {
    let word = if end == End::Small { "small" } else { "big" };
    // What is not checked says so itself.
    let Some(eye) = parts.model.eyes[end as usize] else { return };
    let family = EyeFamily::embedded();
    if !family.covers(eye.width_ratio()) && eye.width_ratio() >= NARROWEST {
        say(&format!(
            "The {word} eye is {:.2} bore diameters wide, outside the contact study. The factors of the nearest width studied \
             are used.",
            eye.width_ratio()
        ));
    }
    let clearance = end.clearance(&parts.prepared.scenario.fits);
    let pull = PinForces::of(parts, end).pull;
    let peak = |radial_clearance: f64| peak_factor(parts, end, &eye, pull, radial_clearance);
    let (given, opened) = (peak(clearance), peak(clearance + OPENED));
    if !eye.half && opened > 1.05 * given {
        say(&format!(
            "Heat and creep open the fit of the {word} end: {:.2} mm more radial clearance raises the pull's stress in that eye \
             {:.2} times.",
            OPENED * MM,
            opened / given
        ));
    }
    let narrow = shank_share(parts, end, &eye).filter(|share| *share < NARROW_SHANK && parts.field.is_none());
    if let Some(share) = narrow {
        say(&format!(
            "The shank at the {word} end is {share:.2} of the eye's width; the contact study has 0.70. A narrower shank raises \
             the stress of a pull: by 5 to 19 % at the bore at 0.50, about twice on the outside where eye and shank meet. \
             Solve the stress field."
        ));
    }
}

/// Width of the shank where it leaves an eye over that of the eye.
fn shank_share(parts: &Parts<'_>, end: End, eye: &EyeModel) -> Option<f64> {
    let outer = eye.radius + eye.ligament;
    let at = if end == End::Small { 1.2 * outer } else { parts.model.length - 1.2 * outer };
    let shank = parts.model.stations.iter().filter(|station| station.region == Region::Shank);
    let nearest = shank.min_by(|a, b| (a.section.position - at).abs().total_cmp(&(b.section.position - at).abs()))?;
    let across = nearest.section.loops.iter().flatten().map(|point| point.x);
    let (low, high) = across.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), y| (low.min(y), high.max(y)));
    Some((high - low) / (2.0 * outer))
}

/// A bore whose wall goes round less than this is open: a full circle less what a coarse mesh leaves out, rad.
const CLOSED_ARC: f64 = 350.0 / 180.0 * core::f64::consts::PI;

/// What carries load and was not checked.
pub(crate) fn unchecked(parts: &Parts<'_>) -> Vec<String> {
    let PreparedRod { rod, scenario, .. } = parts.prepared;
    let mut list = Vec::new();
    for (index, (end, eye)) in [("small", &rod.small_end), ("big", &rod.big_end)].into_iter().enumerate() {
        let arc = eye.bore.main().arc;
        if eye.half && scenario.caps[index].is_some() {
            list.push(format!("the {end} end is a half bore: the cap itself, beyond how its studs hold it"));
        } else if eye.half {
            list.push(format!("the {end} end is a half bore: its cap, its bolts and the pull on them"));
        } else if arc < CLOSED_ARC {
            list.push(format!(
                "the {end}-end bore is open over {:.0}°: it is taken as a closed ring, but an open one bends far more under \
                 a pull",
                360.0 - arc.to_degrees()
            ));
        }
        let seat = eye.bore.main();
        list.extend(few_sides(&format!("{end}-end"), seat.radius, seat.sagitta));
        if scenario.caps[index].is_some() && !eye.half && !rod.overlapping {
            list.push(format!(
                "the joint of a {end}-end cap: the job has its studs, but the mesh is one piece without a joint; leave the cap \
                 out of the job, or draw rod and cap as two"
            ));
        }
    }
    for (end, eye) in [("small", &parts.model.eyes[0]), ("big", &parts.model.eyes[1])] {
        match eye {
            None => list.push(format!("the {end} eye, which could not be measured")),
            Some(eye) if eye.width_ratio() < NARROWEST => list.push(format!(
                "the {end} eye is only {:.2} bore diameters wide; its stress is taken as in one of 1.25, which is too low",
                eye.width_ratio()
            )),
            Some(_) => {}
        }
    }
    if rod.overlapping {
        let clamped = scenario.caps.iter().any(Option::is_some);
        let not = if clamped { "" } else { ": bolts and clamping of a cap (give part.big_end.cap)" };
        list.push(format!("joints between touching shells, taken as solid{not}"));
    }
    let hotter = parts.warmth.peak.filter(|(kelvin, _)| *kelvin > scenario.temperature + 5.0);
    if let (PartTemperature::Given, Some((kelvin, _))) = (scenario.part_temperature, hotter) {
        list.push(format!(
            "long runs: loads and surroundings would bring the shank to {:.0} °C, above the {:.0} °C given; repeat it without \
             the given temperature",
            kelvin - ZERO_C,
            scenario.temperature - ZERO_C
        ));
    }
    list.extend(parts.field.and_then(|findings| few_cells(findings.cells)));
    list.extend(parts.field.map_or_else(Vec::new, |findings| at_corners(&findings.spots)));
    if parts.model.print.infill < 1.0 {
        list.push("pin pressure on a bore with a lighter inside behind its walls".into());
    }
    list
}
