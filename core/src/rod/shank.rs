use super::place::RodMargin;
use nalgebra::{Matrix3, Vector3};

use super::assessment::StationStress;
use super::model::Region;
use super::piece::{FirstLook, Piece, Spot};
use super::place::RodPlace;
use super::setting::{Here, LineStrength, Setting};
use super::station_force::{MiddleReach, middle_path};
use super::wear::{Wear, WearBound, Worn};
use super::worst::Worst;
use crate::material::{Lay, Use};
use crate::verdict::{Counted, Known, Mode, ModeMargin, Reach, extremes};

/// A first look at a station: forces, static margins, and its points for the second look.
pub(crate) fn look(setting: &Setting<'_>, index: usize) -> FirstLook {
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
    let place = RodPlace::ShankAt { position: station.section.position };
    let here = setting.here(Piece::Station(index), place);
    let strength = LineStrength::new(setting, &Vector3::x(), Lay::Wall, here.kept, here.bond);
    let area = station.makeup.stiffness.area;
    if station.region == Region::Shank {
        let wear = Wear::new(setting, strength.in_plane, strength.pulled, here);
        for (number, fibre) in force.fibres.iter().enumerate() {
            let (low, high) = fibre.whole();
            summary.stress_min = summary.stress_min.min(low);
            summary.stress_max = summary.stress_max.max(high);
            let bound = wear.at_least(&fibre.reach, strength.scale());
            found.worn.push((bound, Spot::Fibre { station: index, fibre: number }));
        }
        for mode in at_once(setting, &strength, (summary.stress_min, summary.stress_max), place) {
            found.modes.add(mode, ());
        }
        middle_at_least(setting, index, here, &mut found);
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
pub(crate) fn at_once(
    setting: &Setting<'_>,
    strength: &LineStrength,
    (low, high): (f64, f64),
    place: RodPlace,
) -> [RodMargin; 2] {
    let ten = setting.ten_percent_strength;
    let torn = if strength.pulled.layer_share > 0.5 { Mode::OverloadAcrossLayers } else { Mode::OverloadInLayerPlane };
    let margin = |used: f64| ten / used.max(1e-9);
    [
        ModeMargin::at_once(torn, place, margin(high * strength.pulled.utilisation)),
        ModeMargin::at_once(Mode::Crushing, place, margin(-low * strength.pushed.utilisation)),
    ]
}

/// What running does to a fibre; `None` where no margin can undercut those known.
pub(crate) fn fibre(setting: &Setting<'_>, index: usize, number: usize, known: Known) -> Option<Worn> {
    let station = &setting.model.stations[index];
    let fibre = &station.fibres[number];
    let here = setting.here(Piece::Station(index), RodPlace::ShankAt { position: station.section.position });
    let strength = LineStrength::new(setting, &Vector3::x(), Lay::Wall, here.kept, here.bond);
    let stressing = setting.stressing;
    let spot = &stressing.station(index).fibres[number];
    let history = |step: usize| fibre.stresses(&stressing.forces[step].section(index)).collect();
    let counted = spot.counted(stressing.shares(), history);
    let wear = Wear::new(setting, strength.in_plane, strength.pulled, here);
    wear.exact_below(known, &spot.reach, counted, (strength.scale(), 1.0))
}

/// Bounds for the middle of the depth: normal and shear stress at their worst at once.
fn middle_at_least(setting: &Setting<'_>, index: usize, here: Here, found: &mut FirstLook) {
    let spot = Spot::Middle { station: index };
    let bounds = middle_bounds(setting, &setting.stressing.station(index).middle, here);
    found.loaded.extend(bounds.loaded.map(|bound| (bound, spot)));
    found.worn.extend(bounds.worn.map(|bound| (bound, spot)));
}

/// Margins that those of the middle of a depth cannot fall below, for every mode they may be of.
pub(crate) struct MiddleBounds {
    pub(crate) loaded: [RodMargin; 3],
    pub(crate) worn: [WearBound; 2],
}

/// See [`MiddleBounds`].
pub(crate) fn middle_bounds(setting: &Setting<'_>, reach: &[MiddleReach], here: Here) -> MiddleBounds {
    let Here { place, kept, bond, .. } = here;
    let strength = LineStrength::new(setting, &Vector3::x(), Lay::Lines, kept, bond);
    let lines = setting.strength(Lay::Lines).bonded(bond);
    let shear = lines.use_of(&shear_stress(0.0, 1.0 / kept), &setting.plane).utilisation;
    let (pull, push) = (strength.pulled.utilisation, strength.pushed.utilisation);
    let used: Vec<f64> = reach.iter().map(|reach| reach.within(pull, push, shear)).collect();
    let worst = used.iter().copied().fold(0.0, f64::max);
    let margin = setting.ten_percent_strength / worst.max(1e-9);
    let loaded = [Mode::Crushing, Mode::OverloadAcrossLayers, Mode::OverloadInLayerPlane]
        .map(|mode| ModeMargin::at_once(mode, place, margin));
    // The steepest exponent and the lowest ratio of both lines bound whatever share of the layer plane governs; which way a
    // point is loaded is counted from its worst stress, so that either sign may come.
    let reached = Reach { steps: used.into_iter().map(|used| (-used, used)).collect(), rest: 0.0 };
    let worn = [0.0, 1.0].map(|share| {
        let used = Use { utilisation: worst, layer_share: share, pull: 1.0 };
        Wear::new(setting, strength.in_plane, used, here).at_least(&reached, strength.in_plane)
    });
    MiddleBounds { loaded, worn }
}

fn shear_stress(normal: f64, shear: f64) -> Matrix3<f64> {
    Matrix3::new(normal, shear, 0.0, shear, 0.0, 0.0, 0.0, 0.0, 0.0)
}

/// What one load and running do to the middle of a station's depth, as [`middle_margins`].
pub(crate) fn middle<T: Copy>(setting: &Setting<'_>, index: usize, worst: &Worst<T>) -> (RodMargin, Option<Worn>) {
    let station = &setting.model.stations[index];
    let here = setting.here(Piece::Station(index), RodPlace::ShankAt { position: station.section.position });
    let paths: Vec<Vec<(f64, f64)>> =
        setting.stressing.forces.iter().map(|step| middle_path(station, &step.section(index))).collect();
    middle_margins(setting, &paths, here, worst)
}

/// What one load and running do to a point with normal and shear stress along a path for each step, Pa; of running nothing
/// where no margin can undercut those of the worst so far.
pub(crate) fn middle_margins<T: Copy>(
    setting: &Setting<'_>,
    paths: &[Vec<(f64, f64)>],
    here: Here,
    so_far: &Worst<T>,
) -> (RodMargin, Option<Worn>) {
    let Here { place, kept, .. } = here;
    let strength = setting.strength(Lay::Lines);
    let [pulled, sheared] = [(1.0, 0.0), (0.0, 1.0)].map(|(n, s)| setting.plane.tractions(&shear_stress(n, s)));
    let mut worst = (Use::default(), (0.0, 0.0));
    let mut uses = Vec::with_capacity(paths.len());
    for path in paths {
        let used = |&(normal, shear): &(f64, f64)| {
            let used = strength.use_of_tractions(&pulled.mixed(normal / kept, &sheared, shear / kept));
            if used.utilisation > worst.0.utilisation {
                worst = (used, (normal, shear));
            }
            used
        };
        uses.push(path.iter().map(used).collect::<Vec<Use>>());
    }
    let (used, (normal, shear)) = worst;
    // Counted along the line of the worst stress, as at the points of a field.
    let signed = |(here, (n, s)): (&Use, &(f64, f64))| here.signed(&used, n * normal + 2.0 * s * shear);
    let histories: Vec<Vec<f64>> =
        uses.iter().zip(paths).map(|(uses, path)| uses.iter().zip(path).map(signed).collect()).collect();
    let steps = histories.iter().map(|history| extremes(history.iter().copied())).collect();
    let reached = Reach { steps, rest: 0.0 };
    let lasting = uses.iter().map(|uses| Some(uses.iter().map(Use::lasting).collect::<Vec<f64>>()));
    let counted = Counted::of_both(histories.iter().zip(lasting), setting.stressing.shares());
    let mode = if used.layer_share > 0.5 {
        Mode::OverloadAcrossLayers
    } else if normal < 0.0 {
        Mode::Crushing
    } else {
        Mode::OverloadInLayerPlane
    };
    let margin = setting.ten_percent_strength / used.utilisation.max(1e-9);
    let wear = Wear::new(setting, strength.in_plane(), used, here);
    let (modes, region) = wear.kinds();
    let scales = (strength.in_plane(), used.pull.abs());
    let worn = wear.exact_below(so_far.known_of(modes, region), &reached, &counted, scales);
    (ModeMargin::at_once(mode, place, margin), worn)
}
