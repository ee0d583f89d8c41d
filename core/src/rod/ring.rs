use super::clamped::{Clamped, joint_pull};
use super::eye_stress::EyeStress;
use super::journal::journal;
use super::model::EyePoint;
use super::piece::{FirstLook, Piece, Spot};
use super::place::{End, RodMargin, RodPlace};
use super::pressed::Pressed;
use super::setting::{LineStrength, Setting};
use super::shank::at_once;
use super::wear::{Wear, Worn};
use crate::verdict::{Known, Mode, ModeMargin};

/// A first look at an eye.
pub(crate) fn look(setting: &Setting<'_>, end: End) -> FirstLook {
    let mut found = FirstLook::default();
    let Some(stress) = setting.stressing.eye(end) else { return found };
    for (number, point) in setting.model.eye_points[end as usize].iter().enumerate() {
        let spot = &stress.spots[EyeStress::spot(point.angle, point.outside)];
        let here = setting.here_on(end, point);
        let strength = LineStrength::new(setting, &point.hoop, point.lay, here.kept, here.bond);
        let whole = spot.whole();
        for mode in at_once(setting, &strength, whole, point.place) {
            found.modes.add(mode, ());
        }
        let cold = LineStrength::new(setting, &point.hoop, point.lay, setting.cold, here.bond);
        if let Some(mode) = split(setting, end, &cold, point) {
            found.modes.add(mode, ());
        }
        let wear = Wear::new(setting, strength.in_plane, strength.pulled, here);
        found.worn.push((wear.at_least(&spot.reach, strength.scale()), Spot::Round { end, point: number }));
        found.extremes.push(whole);
    }
    for margin in apart_from_points(setting, end) {
        found.modes.add(margin, ());
    }
    found
}

/// Margin of the pin's pressure on its bore.
fn pin_pressure(setting: &Setting<'_>, end: End) -> Option<RodMargin> {
    let eye = setting.model.eyes[end as usize].as_ref()?;
    let pressure = eye.pin_pressure(setting.stressing.eye(end)?.greatest);
    let strength = setting.kept(Piece::Eye(end)) * setting.material.bearing_pressure;
    let margin = setting.ten_percent_strength * strength / pressure.max(1.0);
    Some(ModeMargin::at_once(Mode::BearingPressure, RodPlace::Bore { end }, margin))
}

/// What can give way in an eye as a whole, in whatever direction it was printed.
pub(crate) fn apart_from_points(setting: &Setting<'_>, end: End) -> impl Iterator<Item = RodMargin> {
    let own = pin_pressure(setting, end).into_iter().chain(grip(setting, end)).chain(joint(setting, end));
    own.chain(journal(setting, end))
}

/// Margin against tearing when the ring is pressed in cold; of each point the hoop direction with its own strength.
pub(crate) fn split(setting: &Setting<'_>, end: End, strength: &LineStrength, point: &EyePoint) -> Option<RodMargin> {
    let hoop = setting.assembled[end as usize][usize::from(point.outside)];
    let margin = setting.ten_percent_strength / (hoop * strength.pulled.utilisation);
    (hoop > 0.0).then(|| ModeMargin::at_once(Mode::SplitByRing, point.place, margin))
}

/// Margin of the grip that a pressed ring has left after the wanted life: by how much the pin force could grow before it
/// drags the ring round.
fn grip(setting: &Setting<'_>, end: End) -> Option<RodMargin> {
    let greatest = setting.stressing.eye(end)?.greatest;
    let ring = Pressed::of(setting.model, setting.scenario, setting.card(), setting.temperatures, end)?;
    let left = ring.pressure_after(setting.scenario.wanted_life).unwrap_or(0.0);
    let margin = left / ring.needed(greatest).max(f64::MIN_POSITIVE);
    Some(ModeMargin::at_once(Mode::LooseRing, RodPlace::Bore { end }, margin))
}

/// Margin of what the studs of a cap still pull with after the wanted life: by how much the pull on the joint could grow.
fn joint(setting: &Setting<'_>, end: End) -> Option<RodMargin> {
    let cap = Clamped::of(setting.model, setting.scenario, setting.card(), setting.temperatures, end)?;
    let left = cap.after(setting.scenario.wanted_life).unwrap_or(0.0);
    let margin = (left / joint_pull(setting.stressing, end).max(f64::MIN_POSITIVE)).min(MOST_MARGIN);
    Some(ModeMargin::at_once(Mode::OpenJoint, RodPlace::Joint { end }, margin))
}

/// Margins beyond this are no number to compare with.
const MOST_MARGIN: f64 = 99.0;

/// What running does to a point round an eye; `None` where no margin can undercut those known.
pub(crate) fn point(setting: &Setting<'_>, end: End, number: usize, known: Known) -> Option<Worn> {
    let stressing = setting.stressing;
    let stress = stressing.eye(end)?;
    let point = &setting.model.eye_points[end as usize][number];
    let spot = EyeStress::spot(point.angle, point.outside);
    let here = setting.here_on(end, point);
    let strength = LineStrength::new(setting, &point.hoop, point.lay, here.kept, here.bond);
    let wear = Wear::new(setting, strength.in_plane, strength.pulled, here);
    let counted = stress.spots[spot].counted(stressing.shares(), |step| stress.history(spot, step));
    wear.exact_below(known, &stress.spots[spot].reach, counted, (strength.scale(), 1.0))
}
