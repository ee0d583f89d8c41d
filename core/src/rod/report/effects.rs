//! What the answer of a rod takes in and leaves out.

use super::build::Parts;
use super::pins::PinForces;
use crate::job::Runs;
use crate::journal::{JournalValues, Lubrication};
use crate::kind::report::{effect, peaks, shared};
use crate::report::{Coverage, CoveredReport};
use crate::rod::model::Region;
use crate::rod::place::End;
use crate::units::MPA;

/// Times the engine's own frequency below which a shank may answer to it: inertia along the shank has orders up to the fourth
/// (common practice, no source).
const CLEAR: f64 = 4.0;

pub(crate) fn effects(parts: &Parts<'_>) -> Vec<CoveredReport> {
    let scenario = &parts.prepared.scenario;
    let mut list = shared(parts.field.is_some(), scenario.bond.is_some());
    list.push(peaks(&scenario.engine, &parts.answers.changes));
    let in_plastic = scenario.runs.iter().any(|runs| runs.in_plastic());
    let pins = if in_plastic {
        "pressure times speed, heat of friction and wear of the plastic bores are among the modes"
    } else {
        "no pin slides on the plastic; of a bearing only its rating life is checked, if its rating is given"
    };
    list.push(effect("pins in their bores", Coverage::Checked, 1.0, pins));
    let friction = "friction of rings adds a few per cent to the pull";
    list.push(effect("friction of rings", Coverage::Bounded, 1.03, friction));
    list.extend(bent_by_pins(parts));
    list.extend(resonance(parts));
    list
}

/// Friction of a rolling bearing on its mean radius (memory: 0.0015 to 0.0025) and of an oiled metal bush (memory).
const ROLLING: f64 = 0.002;
const BUSH: f64 = 0.10;

/// A pin that is turned in its bore by friction bends the rod by a couple of friction, force and radius, even along the shank
/// at most: `mu F r`, beside the stress that the model finds there.
fn bent_by_pins(parts: &Parts<'_>) -> Option<CoveredReport> {
    let scenario = &parts.prepared.scenario;
    let rod = &parts.prepared.rod;
    let couple = |end: End| {
        let (runs, radius) = match end {
            End::Small => (scenario.runs[0], rod.small_end.radius()),
            End::Big => (scenario.runs[1], rod.big_end.radius()),
        };
        let oiled = |lubrication| JournalValues::of(&scenario.card.name, lubrication).friction;
        let friction = match runs {
            Runs::Dry => oiled(Lubrication::Dry),
            Runs::Greased => oiled(Lubrication::Greased),
            Runs::Oiled => oiled(Lubrication::Oiled),
            Runs::Bearing => ROLLING,
            Runs::Bush => BUSH,
        };
        friction * PinForces::of(parts, end).greatest * radius
    };
    let moment = couple(End::Small).max(couple(End::Big));
    let mut worst = (0.0_f64, 0.0_f64);
    for (station, found) in parts.model.stations.iter().zip(&parts.assessment.stations) {
        let (Region::Shank, Some(found)) = (station.region, found) else { continue };
        let stiffness = &station.makeup.stiffness;
        let corners = station.section.loops.iter().flatten();
        let reach = corners.map(|corner| (corner.x - stiffness.centroid.x).abs()).fold(0.0, f64::max);
        let bent = moment * reach / stiffness.second_moment_z;
        if bent.is_finite() && bent > worst.0 {
            worst = (bent, found.stress_max.max(-found.stress_min));
        }
    }
    let (bent, there) = worst;
    let factor = 1.0 + bent / there;
    if !(factor > 1.0 && factor.is_finite()) {
        return None;
    }
    let told = format!(
        "friction of a pin in its bore bends the shank by up to {moment:.2} N m: {:.1} MPa beside the {:.1} MPa there",
        bent * MPA,
        there * MPA
    );
    Some(effect("friction of pins", Coverage::Bounded, factor, &told))
}

/// The shank as an even beam between its pins: `f = pi / (2 L^2) sqrt(E I / m')` (Timoshenko; closed form), with the least second
/// moment of any cut and the whole mass spread along it, both on the slow side.
pub(crate) fn resonance(parts: &Parts<'_>) -> Option<CoveredReport> {
    let model = parts.model;
    let scenario = &parts.prepared.scenario;
    let shank = model.stations.iter().filter(|station| station.region == Region::Shank);
    let least = shank.map(|station| station.makeup.stiffness.principal().0).fold(f64::INFINITY, f64::min);
    let state = scenario.card.at(parts.temperatures.peak(), scenario.moisture);
    let modulus = state.modulus_along(model.print.build.x);
    let per_length = model.mass.mass() / model.length;
    let root = (modulus * least / per_length).sqrt();
    let hertz = 0.5 * core::f64::consts::PI / (model.length * model.length) * root;
    let engine = scenario.duty.highest_rpm() / 60.0;
    let times = hertz / engine;
    if !times.is_finite() {
        return None;
    }
    let state = if times < CLEAR { Coverage::NotChecked } else { Coverage::Bounded };
    // A beam that is shaken at its engine's frequency bends so much more than one that is pushed.
    let factor = if times > 1.0 { (1.0 / (1.0 - 1.0 / (times * times))).min(10.0) } else { 10.0 };
    let told = format!(
        "as a beam between its pins the rod bends first at {hertz:.0} Hz or above, {times:.1} times the engine's {engine:.0} Hz{}",
        if times < CLEAR { ": below 4 times that it may resonate; make it thicker" } else { "" }
    );
    Some(effect("bending resonance", state, factor, &told))
}
