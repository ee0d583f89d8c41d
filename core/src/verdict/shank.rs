use nalgebra::{Matrix3, Vector3};

use super::fatigue::{Fatigue, extremes};
use super::mode::Mode;
use super::model::Region;
use super::piece::{FirstLook, Spot};
use super::place::RodPlace;
use super::quantile::ten_percent_factor;
use super::setting::{LineStrength, Setting};
use super::summary::{ModeMargin, StationStress};
use crate::load::SectionForce;
use crate::material::{Lay, Use};

/// Forces at a station at every crank angle of every step.
fn forces(setting: &Setting<'_>, station: usize) -> Vec<Vec<SectionForce>> {
    let steps = setting.steps();
    steps.map(|(basis, speed)| (0..basis.angles()).map(|a| basis.section(station, a, speed)).collect()).collect()
}

/// A first look at a station: forces, static margins, and its points for the second look.
pub(super) fn look(setting: &Setting<'_>, index: usize) -> FirstLook {
    let station = &setting.model.stations[index];
    let forces = forces(setting, index);
    let greatest = |value: fn(&SectionForce) -> f64| extremes(forces.iter().flatten().map(value)).1;
    let mut summary = StationStress {
        axial_max: greatest(|f| f.axial),
        axial_min: -greatest(|f| -f.axial),
        shear_max: greatest(|f| f.shear.abs()),
        bending_max: greatest(|f| f.bending.abs()),
        stress_max: 0.0,
        stress_min: 0.0,
        utilisation: 0.0,
    };
    let mut found = FirstLook::default();
    let strength = LineStrength::new(setting, &Vector3::x(), Lay::Wall);
    let area = station.makeup.stiffness.area;
    if station.region == Region::Shank {
        let place = RodPlace::ShankAt { position: station.section.position };
        let fatigue = Fatigue::new(setting, strength.in_plane, strength.pulled, place);
        for (number, fibre) in station.fibres.iter().enumerate() {
            let steps: Vec<(f64, f64)> =
                forces.iter().map(|step| extremes(step.iter().map(|force| fibre.stress(force)))).collect();
            for &(low, high) in &steps {
                summary.stress_min = summary.stress_min.min(low);
                summary.stress_max = summary.stress_max.max(high);
            }
            let scaled = steps.iter().map(|(low, high)| (low * strength.scale(), high * strength.scale()));
            found.spots.push((fatigue.at_least(scaled), Spot::Fibre { station: index, fibre: number }));
        }
        for mode in at_once(setting, &strength, (summary.stress_min, summary.stress_max), place) {
            found.add(mode);
        }
        middle_at_least(setting, index, &forces, place, &mut found);
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
    let ten = ten_percent_factor(deviation);
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
    let strength = LineStrength::new(setting, &Vector3::x(), Lay::Wall);
    let place = RodPlace::ShankAt { position: station.section.position };
    let scale = strength.scale();
    let histories: Vec<Vec<f64>> = forces(setting, index)
        .iter()
        .map(|step| step.iter().map(|force| fibre.stress(force) * scale).collect())
        .collect();
    let fatigue = Fatigue::new(setting, strength.in_plane, strength.pulled, place);
    vec![fatigue.exact(&histories, &mut crate::life::RainflowScratch::default())]
}

/// Normal and shear stress in the middle of a section's depth, Pa.
fn middle_stress(setting: &Setting<'_>, index: usize, force: &SectionForce) -> (f64, f64) {
    let station = &setting.model.stations[index];
    let normal = force.axial / station.makeup.stiffness.area;
    (normal, station.shear_factor * force.shear / station.section.properties.area)
}

/// Bounds for the middle of the depth: normal and shear stress at their worst at once.
fn middle_at_least(
    setting: &Setting<'_>,
    index: usize,
    forces: &[Vec<SectionForce>],
    place: RodPlace,
    found: &mut FirstLook,
) {
    let strength = LineStrength::new(setting, &Vector3::x(), Lay::Lines);
    let shear_use = setting.strength(Lay::Lines).use_of(&shear_stress(0.0, 1.0), &setting.plane).utilisation;
    let bound = |force: &SectionForce| {
        let (normal, shear) = middle_stress(setting, index, force);
        strength.utilisation(normal) + shear.abs() * shear_use
    };
    let steps: Vec<f64> = forces.iter().map(|step| extremes(step.iter().map(bound)).1).collect();
    let worst = steps.iter().copied().fold(0.0, f64::max);
    let ten = ten_percent_factor(setting.material.strength_scatter);
    let spot = Spot::Middle { station: index };
    let margin = ten / worst.max(1e-9);
    for mode in [Mode::Crushing, Mode::OverloadAcrossLayers, Mode::OverloadInLayerPlane] {
        found.spots.push((ModeMargin::at_once(mode, place, margin, setting.material.strength_scatter), spot));
    }
    // The steepest exponent and the lowest ratio of both lines bound whatever share of the layer plane governs.
    for share in [0.0, 1.0] {
        let used = Use { utilisation: worst, layer_share: share };
        let fatigue = Fatigue::new(setting, strength.in_plane, used, place);
        let scaled = steps.iter().map(|&used| (-used * strength.in_plane, used * strength.in_plane));
        found.spots.push((fatigue.at_least(scaled), spot));
    }
}

fn shear_stress(normal: f64, shear: f64) -> Matrix3<f64> {
    Matrix3::new(normal, shear, 0.0, shear, 0.0, 0.0, 0.0, 0.0, 0.0)
}

/// The exact margins of the middle of a station's depth.
pub(super) fn middle(setting: &Setting<'_>, index: usize) -> Vec<ModeMargin> {
    let station = &setting.model.stations[index];
    let place = RodPlace::ShankAt { position: station.section.position };
    let strength = setting.strength(Lay::Lines);
    let mut worst = (Use::default(), 0.0);
    let histories: Vec<Vec<f64>> = forces(setting, index)
        .iter()
        .map(|step| {
            let scaled = |force: &SectionForce| {
                let (normal, shear) = middle_stress(setting, index, force);
                let used = strength.use_of(&shear_stress(normal, shear), &setting.plane);
                if used.utilisation > worst.0.utilisation {
                    worst = (used, normal);
                }
                // The sign of the larger stress decides whether the point is pulled or pushed.
                let sign = if shear.abs() > normal.abs() { shear.signum() } else { normal.signum() };
                sign * used.utilisation * strength.in_plane()
            };
            step.iter().map(scaled).collect()
        })
        .collect();
    let (used, normal) = worst;
    let mode = if used.layer_share > 0.5 {
        Mode::OverloadAcrossLayers
    } else if normal < 0.0 {
        Mode::Crushing
    } else {
        Mode::OverloadInLayerPlane
    };
    let deviation = setting.material.strength_scatter;
    let margin = ten_percent_factor(deviation) / used.utilisation.max(1e-9);
    let fatigue = Fatigue::new(setting, strength.in_plane(), used, place);
    vec![
        ModeMargin::at_once(mode, place, margin, deviation),
        fatigue.exact(&histories, &mut crate::life::RainflowScratch::default()),
    ]
}
