use super::eye_stress::EyeStress;
use super::mode::Mode;
use super::piece::{FirstLook, Piece, Spot};
use super::place::{End, RodPlace};
use super::setting::{LineStrength, Setting};
use super::shank::at_once;
use super::summary::ModeMargin;
use super::wear::{Wear, Worn};

/// A first look at an eye.
pub(super) fn look(setting: &Setting<'_>, end: End) -> FirstLook {
    let mut found = FirstLook::default();
    let Some(stress) = setting.stressing.eye(end) else { return found };
    let piece = Piece::Eye(end);
    for (number, point) in setting.model.eye_points[end as usize].iter().enumerate() {
        let spot = &stress.spots[EyeStress::spot(point.angle, point.outside)];
        let here = setting.here(piece, point.place);
        let strength = LineStrength::new(setting, &point.hoop, point.lay, here.kept);
        let whole = spot.whole();
        for mode in at_once(setting, &strength, whole, point.place) {
            found.modes.add(mode, ());
        }
        let wear = Wear::new(setting, strength.in_plane, strength.pulled, here);
        found.worn.push((wear.at_least(&spot.steps, strength.scale()), Spot::Round { end, point: number }));
        found.extremes.push(whole);
    }
    if let Some(margin) = pin_pressure(setting, end) {
        found.modes.add(margin, ());
    }
    found
}

/// Margin of the pin's pressure on its bore.
pub(super) fn pin_pressure(setting: &Setting<'_>, end: End) -> Option<ModeMargin> {
    let eye = setting.model.eyes[end as usize].as_ref()?;
    let pressure = eye.pin_pressure(setting.stressing.eye(end)?.greatest);
    let strength = setting.kept(Piece::Eye(end)) * setting.material.bearing_pressure;
    let margin = setting.ten_percent_strength * strength / pressure.max(1.0);
    Some(ModeMargin::at_once(Mode::BearingPressure, RodPlace::Bore { end }, margin))
}

/// What running does to a point round an eye.
pub(super) fn point(setting: &Setting<'_>, end: End, number: usize) -> Option<Worn> {
    let stressing = setting.stressing;
    let stress = stressing.eye(end)?;
    let point = &setting.model.eye_points[end as usize][number];
    let spot = EyeStress::spot(point.angle, point.outside);
    let here = setting.here(Piece::Eye(end), point.place);
    let strength = LineStrength::new(setting, &point.hoop, point.lay, here.kept);
    let wear = Wear::new(setting, strength.in_plane, strength.pulled, here);
    let counted = stress.spots[spot].counted(stressing.shares(), |step| stress.history(spot, step));
    Some(wear.exact(&stress.spots[spot].steps, counted, strength.scale()))
}
