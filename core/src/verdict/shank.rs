use nalgebra::{Matrix3, Vector3};

use super::fatigue::Fatigue;
use super::mode::Mode;
use super::model::Region;
use super::piece::{FirstLook, Piece, Spot};
use super::place::RodPlace;
use super::setting::{LineStrength, Setting};
use super::spot_stress::{counted, extremes};
use super::station_force::{MiddleReach, middle_path};
use super::summary::{ModeMargin, StationStress};
use crate::life::{Cycle, RainflowScratch};
use crate::material::{Lay, Use};

/// A first look at a station: forces, static margins, and its points for the second look.
pub(super) fn look(setting: &Setting<'_>, index: usize) -> FirstLook {
    let station = &setting.model.stations[index];
    let force = setting.stressing.station(index);
    let mut summary = StationStress {
        axial_max: force.axial.1,
        axial_min: force.axial.0,
        shear_max: force.shear,
        bending_max: force.bending,
        stress_max: 0.0,
        stress_min: 0.0,
        utilisation: 0.0,
    };
    let mut found = FirstLook::default();
    let kept = setting.kept(Piece::Station(index));
    let strength = LineStrength::new(setting, &Vector3::x(), Lay::Wall, kept);
    let area = station.makeup.stiffness.area;
    if station.region == Region::Shank {
        let place = RodPlace::ShankAt { position: station.section.position };
        let fatigue = Fatigue::new(setting, strength.in_plane, strength.pulled, place);
        for (number, fibre) in force.fibres.iter().enumerate() {
            let (low, high) = fibre.whole();
            summary.stress_min = summary.stress_min.min(low);
            summary.stress_max = summary.stress_max.max(high);
            let bound = fatigue.at_least(&fibre.steps, strength.scale());
            found.spots.push((bound, Spot::Fibre { station: index, fibre: number }));
        }
        for mode in at_once(setting, &strength, (summary.stress_min, summary.stress_max), place) {
            found.modes.add(mode, ());
        }
        middle_at_least(setting, index, place, &mut found);
    } else if area > 0.0 {
        // In an eye the two sides share the force; the ring's bending is the eye's business.
        summary.stress_max = (summary.axial_max / area).max(0.0);
        summary.stress_min = (summary.axial_min / area).min(0.0);
    }
    summary.utilisation = strength.utilisation(summary.stress_max).max(strength.utilisation(summary.stress_min));
    found.station = Some(summary);
    found
}

/// Margins of one load against tearing and crushing, from the extremes of a stress along one line.
pub(super) fn at_once(
    setting: &Setting<'_>,
    strength: &LineStrength,
    (low, high): (f64, f64),
    place: RodPlace,
) -> [ModeMargin; 2] {
    let deviation = setting.material.strength_scatter;
    let ten = setting.ten_percent_strength;
    let torn = if strength.pulled.layer_share > 0.5 { Mode::OverloadAcrossLayers } else { Mode::OverloadInLayerPlane };
    let margin = |used: f64| ten / used.max(1e-9);
    [
        ModeMargin::at_once(torn, place, margin(high * strength.pulled.utilisation), deviation),
        ModeMargin::at_once(Mode::Crushing, place, margin(-low * strength.pushed.utilisation), deviation),
    ]
}

/// The exact margin of a fibre.
pub(super) fn fibre(setting: &Setting<'_>, index: usize, number: usize) -> Vec<ModeMargin> {
    let station = &setting.model.stations[index];
    let fibre = &station.fibres[number];
    let strength = LineStrength::new(setting, &Vector3::x(), Lay::Wall, setting.kept(Piece::Station(index)));
    let place = RodPlace::ShankAt { position: station.section.position };
    let spot = &setting.stressing.station(index).fibres[number];
    let steps = &setting.stressing.forces;
    let cycles = spot.cycles(|step| fibre.stresses(&steps[step].section(index)).collect());
    let fatigue = Fatigue::new(setting, strength.in_plane, strength.pulled, place);
    vec![fatigue.exact(&spot.steps, cycles, strength.scale())]
}

/// Bounds for the middle of the depth: normal and shear stress at their worst at once.
fn middle_at_least(setting: &Setting<'_>, index: usize, place: RodPlace, found: &mut FirstLook) {
    let kept = setting.kept(Piece::Station(index));
    let spot = Spot::Middle { station: index };
    let reach = &setting.stressing.station(index).middle;
    middle_bounds(setting, reach, kept, place, &mut |bound| found.spots.push((bound, spot)));
}

/// Margins that those of the middle of a depth cannot fall below, for every mode they may be of.
pub(super) fn middle_bounds(
    setting: &Setting<'_>,
    reach: &[MiddleReach],
    kept: f64,
    place: RodPlace,
    found: &mut dyn FnMut(ModeMargin),
) {
    let strength = LineStrength::new(setting, &Vector3::x(), Lay::Lines, kept);
    let shear = setting.strength(Lay::Lines).use_of(&shear_stress(0.0, 1.0 / kept), &setting.plane).utilisation;
    let (pull, push) = (strength.pulled.utilisation, strength.pushed.utilisation);
    let steps: Vec<(f64, f64)> = reach.iter().map(|reach| reach.within(pull, push, shear)).collect();
    let worst = steps.iter().fold(0.0, |worst: f64, (low, high)| worst.max(-low).max(*high));
    let margin = setting.ten_percent_strength / worst.max(1e-9);
    for mode in [Mode::Crushing, Mode::OverloadAcrossLayers, Mode::OverloadInLayerPlane] {
        found(ModeMargin::at_once(mode, place, margin, setting.material.strength_scatter));
    }
    // The steepest exponent and the lowest ratio of both lines bound whatever share of the layer plane governs.
    for share in [0.0, 1.0] {
        let used = Use { utilisation: worst, layer_share: share };
        found(Fatigue::new(setting, strength.in_plane, used, place).at_least(&steps, strength.in_plane));
    }
}

fn shear_stress(normal: f64, shear: f64) -> Matrix3<f64> {
    Matrix3::new(normal, shear, 0.0, shear, 0.0, 0.0, 0.0, 0.0, 0.0)
}

/// The exact margins of the middle of a station's depth.
pub(super) fn middle(setting: &Setting<'_>, index: usize) -> Vec<ModeMargin> {
    let station = &setting.model.stations[index];
    let place = RodPlace::ShankAt { position: station.section.position };
    let paths: Vec<Vec<(f64, f64)>> =
        setting.stressing.forces.iter().map(|step| middle_path(station, &step.section(index))).collect();
    middle_margins(setting, &paths, setting.kept(Piece::Station(index)), place, |cycles| cycles).to_vec()
}

/// Margins of a point with normal and shear stress along a path for each step, Pa; `kept` as in [`LineStrength::new`].
/// Fatigue looks at the cycles that `counting` leaves of each step.
pub(super) fn middle_margins(
    setting: &Setting<'_>,
    paths: &[Vec<(f64, f64)>],
    kept: f64,
    place: RodPlace,
    counting: impl Fn(Vec<Cycle>) -> Vec<Cycle>,
) -> [ModeMargin; 2] {
    let strength = setting.strength(Lay::Lines);
    let mut worst = (Use::default(), 0.0);
    let mut scratch = RainflowScratch::default();
    let (mut steps, mut cycles) = (Vec::new(), Vec::new());
    for path in paths {
        let used = |&(normal, shear): &(f64, f64)| {
            let used = strength.use_of(&shear_stress(normal / kept, shear / kept), &setting.plane);
            if used.utilisation > worst.0.utilisation {
                worst = (used, normal);
            }
            // The sign of the larger stress decides whether the point is pulled or pushed.
            let sign = if shear.abs() > normal.abs() { shear.signum() } else { normal.signum() };
            sign * used.utilisation
        };
        let history: Vec<f64> = path.iter().map(used).collect();
        steps.push(extremes(history.iter().copied()));
        cycles.push(counting(counted(&history, &mut scratch)));
    }
    let (used, normal) = worst;
    let mode = if used.layer_share > 0.5 {
        Mode::OverloadAcrossLayers
    } else if normal < 0.0 {
        Mode::Crushing
    } else {
        Mode::OverloadInLayerPlane
    };
    let deviation = setting.material.strength_scatter;
    let margin = setting.ten_percent_strength / used.utilisation.max(1e-9);
    let fatigue = Fatigue::new(setting, strength.in_plane(), used, place);
    [ModeMargin::at_once(mode, place, margin, deviation), fatigue.exact(&steps, &cycles, strength.in_plane())]
}
