use super::eye_stress::EyeStress;
use super::fatigue::Fatigue;
use super::mode::Mode;
use super::piece::{FirstLook, Piece, Spot};
use super::place::{End, RodPlace};
use super::setting::{LineStrength, Setting};
use super::shank::at_once;
use super::summary::ModeMargin;

/// A first look at an eye.
pub(super) fn look(setting: &Setting<'_>, end: End) -> FirstLook {
    let mut found = FirstLook::default();
    let Some(stress) = setting.stressing.eye(end) else { return found };
    let kept = setting.kept(Piece::Eye(end));
    for (number, point) in setting.model.eye_points[end as usize].iter().enumerate() {
        let spot = &stress.spots[EyeStress::spot(point.angle, point.outside)];
        let strength = LineStrength::new(setting, &point.hoop, point.lay, kept);
        let whole = spot.whole();
        for mode in at_once(setting, &strength, whole, point.place) {
            found.modes.add(mode, ());
        }
        let fatigue = Fatigue::new(setting, strength.in_plane, strength.pulled, point.place);
        found.spots.push((fatigue.at_least(&spot.steps, strength.scale()), Spot::Round { end, point: number }));
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
    let deviation = setting.material.strength_scatter;
    let strength = setting.kept(Piece::Eye(end)) * setting.material.bearing_pressure;
    let margin = setting.ten_percent_strength * strength / pressure.max(1.0);
    Some(ModeMargin::at_once(Mode::BearingPressure, RodPlace::Bore { end }, margin, deviation))
}

/// The exact margins of a point round an eye.
pub(super) fn point(setting: &Setting<'_>, end: End, number: usize) -> Vec<ModeMargin> {
    let Some(stress) = setting.stressing.eye(end) else { return Vec::new() };
    let point = &setting.model.eye_points[end as usize][number];
    let spot = EyeStress::spot(point.angle, point.outside);
    let strength = LineStrength::new(setting, &point.hoop, point.lay, setting.kept(Piece::Eye(end)));
    let fatigue = Fatigue::new(setting, strength.in_plane, strength.pulled, point.place);
    let cycles = stress.spots[spot].cycles(|step| stress.history(spot, step));
    vec![fatigue.exact(&stress.spots[spot].steps, cycles, strength.scale())]
}
