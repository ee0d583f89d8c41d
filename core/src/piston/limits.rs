use super::assess::PistonCase;
use super::place::PistonPlace;
use crate::material::Card;
use crate::stress::Growth;
use crate::verdict::{Mode, ModeMargin, ten_percent_factor};

/// Temperature at which diameters are measured and plastics tested, K (ISO 291).
const COLD: f64 = crate::units::ROOM_K;

/// Diameters of a piston and of its cylinder, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fits {
    /// Skirt.
    pub skirt: f64,
    /// Length of the skirt that guides, m.
    pub skirt_length: f64,
    /// Uppermost land.
    pub land: f64,
    /// Height of that land's middle over the pin axis, m.
    pub land_height: f64,
    /// What stands out of the skirt: its diameter, and its height over the pin axis, m.
    pub lip: Option<(f64, f64)>,
    /// Pin bore.
    pub pin: f64,
    /// Cylinder.
    pub bore: f64,
}

/// Softening of crown, top land and bosses; the margin is the factor by which the temperature over the 23 °C of a test room
/// could grow: over the run's own start it would rise where a warmer start leaves less to rise.
pub(crate) fn softening(case: &PistonCase<'_>, card: &Card) -> (Vec<ModeMargin<PistonPlace>>, Option<f64>) {
    let limit = card.softening();
    let warm = case.warm;
    if !warm.counts {
        let soft = case.scenario.temperature >= limit;
        let whole = ModeMargin::at_once(Mode::Softening, PistonPlace::Whole, 0.0);
        return (soft.then_some(whole).into_iter().collect(), soft.then_some(0.0));
    }
    let room = (limit - COLD).max(0.0);
    let places = [
        (PistonPlace::Crown, warm.reached[0]),
        (PistonPlace::TopLand, warm.reached[1]),
        (PistonPlace::PinBore, case.boss_temperature()),
    ];
    let modes: Vec<_> = places
        .into_iter()
        .map(|(place, kelvin)| {
            let margin = (room / (kelvin - COLD).max(1e-3)).min(99.0);
            ModeMargin::at_once(Mode::Softening, place, margin)
        })
        .collect();
    let boss = (case.boss_temperature() >= limit).then_some(0.0);
    (modes, [warm.soft(), boss].into_iter().flatten().reduce(f64::min))
}

/// Expansion of a printed disc square to the piston's axis, 1/K: the greatest in any direction there.
fn expansion(case: &PistonCase<'_>, card: &Card) -> f64 {
    let material = card.at(COLD, case.scenario.moisture);
    let build = case.model.print.build;
    let up = build.y * build.y + build.z * build.z;
    let in_plane = material.in_plane_expansion();
    in_plane.max(in_plane * (1.0 - up) + material.layer_expansion * up)
}

/// Growth of top land, skirt and what stands out of it in their cylinder, the top land first.
pub fn growth_of(case: &PistonCase<'_>, card: &Card) -> Vec<(PistonPlace, Growth)> {
    let expansion = expansion(case, card);
    let land = if case.warm.counts {
        case.warm.crown_mean().max(case.belt_temperature(case.fits.land_height))
    } else {
        case.scenario.temperature
    };
    let of = |diameter: f64, temperature: f64| Growth {
        diameter,
        expansion,
        temperature,
        bore: case.fits.bore,
        bore_expansion: case.piston.cylinder.expansion(),
        bore_temperature: case.piston.cylinder_wall,
        cold: COLD,
    };
    let mut found = vec![
        (PistonPlace::TopLand, of(case.fits.land, land)),
        (PistonPlace::Skirt, of(case.fits.skirt, case.skirt_temperature())),
    ];
    found.extend(case.fits.lip.map(|(diameter, height)| {
        let warm = if height > 0.0 { land } else { 0.0 };
        (PistonPlace::Lip { height }, of(diameter, warm.max(case.skirt_temperature())))
    }));
    found
}

pub(crate) fn growth(case: &PistonCase<'_>, card: &Card) -> Vec<ModeMargin<PistonPlace>> {
    growth_of(case, card)
        .into_iter()
        .map(|(place, growth)| {
            let room = growth.cold_clearance() + growth.of_bore() - case.piston.running_clearance;
            let grown = growth.of_part();
            let margin = if grown > 0.0 { (room / grown).clamp(0.0, 99.0) } else { 99.0 };
            ModeMargin::at_once(Mode::Seizure, place, margin)
        })
        .collect()
}

/// Mean pressure of the pin on its bore.
pub(crate) fn bearing(case: &PistonCase<'_>, card: &Card) -> Option<ModeMargin<PistonPlace>> {
    let area = case.fits.pin * case.model.bearing_length;
    let force = greatest(case, |pin, side, _| libm::hypot(pin, side));
    (area > 0.0).then(|| pressed(case, card, Mode::BearingPressure, PistonPlace::PinBore, force / area))
}

/// Mean pressure of the skirt on its cylinder.
pub(crate) fn skirt(case: &PistonCase<'_>, card: &Card) -> ModeMargin<PistonPlace> {
    let force = greatest(case, |_, _, wall| wall.abs());
    let area = case.fits.skirt * case.fits.skirt_length;
    pressed(case, card, Mode::SkirtPressure, PistonPlace::Skirt, force / area.max(1e-12))
}

fn pressed(
    case: &PistonCase<'_>,
    card: &Card,
    mode: Mode,
    place: PistonPlace,
    pressure: f64,
) -> ModeMargin<PistonPlace> {
    let kelvin = if mode == Mode::SkirtPressure { case.skirt_temperature() } else { case.boss_temperature() };
    let material = card.at(case.before_softening(kelvin), case.scenario.moisture);
    let ten = ten_percent_factor(material.strength_scatter);
    ModeMargin::at_once(mode, place, ten * material.bearing_pressure / pressure.max(1.0))
}

/// Greatest of something over the duty from the forces of pin, pin to the side, and wall, N.
pub(crate) fn greatest(case: &PistonCase<'_>, of: impl Fn(f64, f64, f64) -> f64) -> f64 {
    let all = case.over_cycle(|basis, angle, speed| {
        let force = basis.at(angle, speed);
        of(force.pin, force.pin_side, force.wall)
    });
    all.into_iter().flatten().fold(0.0, f64::max)
}
