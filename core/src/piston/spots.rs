use nalgebra::{Matrix3, Vector3};

use super::assess::PistonCase;
use super::place::PistonPlace;
use crate::material::{Card, Lay, LayerPlane, LayerStrength, MaterialState};
use crate::numeric::sort_few;
use crate::stress::{AnnularPlate, EyeFamily, Fit, StressError, Thrust, WidthFactors};
use crate::verdict::wall_lay;

/// A point whose stress keeps one shape and changes in size over the cycle.
pub(crate) struct PistonSpot {
    pub(crate) place: PistonPlace,
    /// Stress per Pa of the history.
    pub(crate) shape: Matrix3<f64>,
    pub(crate) lay: Lay,
    /// Temperature there, K.
    pub(crate) kelvin: f64,
    /// Stress at every crank angle of each step, Pa.
    pub(crate) history: Vec<Vec<f64>>,
    /// What one push has of the history: peaks at notches do not crush.
    pub(crate) crushing: f64,
}

impl PistonSpot {
    /// Multiplies its stress.
    pub(crate) fn raise(&mut self, factor: f64) {
        if factor != 1.0 {
            self.history.iter_mut().flatten().for_each(|stress| *stress *= factor);
        }
    }
}

/// Azimuths at which stress round the axis is looked at: half a circle, since opposite ones are alike.
const AZIMUTHS: usize = 8;

/// Everything stressed but the crown, worked out for a factor on all speeds.
pub(crate) fn spots(case: &PistonCase<'_>, card: &Card) -> Result<Vec<PistonSpot>, StressError> {
    let mut found = lands(case, card)?;
    found.extend(sections(case, card));
    found.extend(boss(case, card));
    Ok(found)
}

/// Pressure that bends the crown at every angle of every step, Pa: gas less the crown's own inertia.
pub(crate) fn crown_pressure(case: &PistonCase<'_>, mass_per_area: f64) -> Vec<Vec<f64>> {
    case.over_cycle(|basis, angle, speed| basis.pressure(angle) + mass_per_area * basis.acceleration(angle, speed))
}

pub(crate) fn scaled(history: &[Vec<f64>], factor: f64) -> Vec<Vec<f64>> {
    history.iter().map(|step| step.iter().map(|value| value * factor).collect()).collect()
}

fn radial(angle: f64) -> Vector3<f64> {
    Vector3::new(0.0, libm::cos(angle), libm::sin(angle))
}

/// The azimuth whose stress uses the most strength, of a shape that turns round the axis.
pub(crate) fn worst_round(
    case: &PistonCase<'_>,
    card: &Card,
    shape: impl Fn(Vector3<f64>, Vector3<f64>) -> Matrix3<f64>,
) -> Matrix3<f64> {
    let material = card.at(case.scenario.temperature, case.scenario.moisture);
    let (strength, plane) = (LayerStrength::of(&material, Lay::Lines), LayerPlane::new(case.model.print.build));
    let mut worst = (f64::NEG_INFINITY, Matrix3::zeros());
    for k in 0..AZIMUTHS {
        let angle = core::f64::consts::PI * k as f64 / AZIMUTHS as f64;
        let radial = radial(angle);
        let shape = shape(radial, Vector3::x().cross(&radial));
        let used = strength.use_of(&shape, &plane).utilisation.max(strength.use_of(&-shape, &plane).utilisation);
        // Only a plain difference counts, so that rounding does not choose.
        if used > worst.0 * (1.0 + 1e-9) {
            worst = (used, shape);
        }
    }
    worst.1
}

pub(crate) fn poisson_ratio(material: &MaterialState) -> f64 {
    material.poisson_ratio.clamp(0.0, 0.5)
}

/// Shear of one between two directions.
pub(crate) fn crossed(a: &Vector3<f64>, b: &Vector3<f64>) -> Matrix3<f64> {
    a * b.transpose() + b * a.transpose()
}

/// Lands between grooves under the whole gas pressure from above and none below: no land has more.
fn lands(case: &PistonCase<'_>, card: &Card) -> Result<Vec<PistonSpot>, StressError> {
    let mut found = Vec::new();
    for (index, land) in case.model.lands.iter().enumerate() {
        let kelvin = case.before_softening(case.belt_temperature(land.top));
        let material = card.at(kelvin, case.scenario.moisture);
        let modulus = material.in_plane_modulus().max(1.0);
        let nu = poisson_ratio(&material);
        let plate = AnnularPlate::new(land.root, land.edge, land.height, modulus, nu)?;
        let per_pascal = plate.under_pressure(1.0);
        let pressure = crown_pressure(case, 0.0);
        let number = index + 2;
        let bending = worst_round(case, card, |r, t| r * r.transpose() + t * t.transpose() * nu);
        let shear = worst_round(case, card, |r, _| crossed(&Vector3::x(), &r));
        for (shape, per, shear) in [(bending, per_pascal.root_stress, false), (shear, per_pascal.root_shear, true)] {
            found.push(PistonSpot {
                place: PistonPlace::Land { number, shear },
                shape,
                lay: wall_lay(&case.model.print),
                kelvin,
                history: scaled(&pressure, per),
                crushing: if shear { 0.0 } else { 1.0 },
            });
        }
    }
    Ok(found)
}

/// Cuts whose running is looked at: the most pulled, and the most pushed. The others carry less at the same angles, since
/// gas and inertia act on all of them alike.
const CUTS: usize = 6;

/// Cuts across the axis under inertia and gas; the crown itself bends instead.
fn sections(case: &PistonCase<'_>, card: &Card) -> Vec<PistonSpot> {
    let along = Vector3::x() * Vector3::x().transpose();
    let mut loaded: Vec<(usize, f64, f64)> = case
        .loaded_stations()
        .map(|(index, station)| {
            let (least, most) = case.section_extremes(index);
            let kept = card.share_at(case.wall_temperature(station.section.position)).0.max(1e-6);
            let area = station.makeup.stiffness.area * kept;
            (index, most * station.notch / area, -least / area)
        })
        .collect();
    let mut chosen: Vec<usize> = Vec::new();
    for key in [|cut: &(usize, f64, f64)| cut.1, |cut: &(usize, f64, f64)| cut.2] {
        sort_few(&mut loaded, |a, b| key(b).total_cmp(&key(a)).then(a.0.cmp(&b.0)));
        chosen.extend(loaded.iter().take(CUTS).map(|cut| cut.0));
    }
    chosen.sort_unstable();
    chosen.dedup();
    chosen
        .into_iter()
        .map(|index| {
            let station = &case.model.stations[index];
            let height = station.section.position;
            let force = case.over_cycle(|basis, angle, speed| basis.section(index, angle, speed));
            PistonSpot {
                place: PistonPlace::Section { height },
                shape: along,
                lay: wall_lay(&case.model.print),
                kelvin: case.before_softening(case.wall_temperature(height)),
                history: scaled(&force, station.notch / station.makeup.stiffness.area),
                crushing: 1.0 / station.notch,
            }
        })
        .collect()
}

/// The bosses: hoop stress round the pin bore as round a rod's eye, and shear of what lies under the pin.
fn boss(case: &PistonCase<'_>, card: &Card) -> Vec<PistonSpot> {
    let kelvin = case.before_softening(case.boss_temperature());
    let mut found = Vec::new();
    let edge = case.model.boss_edge;
    if edge.is_finite() && edge > 0.0 && case.model.bearing_length > 0.0 {
        // Two planes beside the pin in each boss (double shear of a lug; Shigley).
        let area = 2.0 * edge * case.model.bearing_length;
        found.push(PistonSpot {
            place: PistonPlace::BossShear,
            shape: crossed(&Vector3::x(), &Vector3::y()),
            lay: wall_lay(&case.model.print),
            kelvin,
            history: case.over_cycle(|basis, angle, speed| (-basis.at(angle, speed).pin).max(0.0) / area),
            crushing: 0.0,
        });
    }
    let Some(eye) = case.model.boss else { return found };
    let modulus = card.at(kelvin, case.scenario.moisture).in_plane_modulus();
    let fit = Fit { radial_clearance: case.piston.pin_clearance, modulus };
    let family = EyeFamily::embedded();
    let of_width = |thrust| WidthFactors::new(family, thrust, eye.width_ratio());
    let (pull, push) = (of_width(Thrust::Pull), of_width(Thrust::Push));
    let net = eye.net_area();
    // Nominal stress, whether it pulls, and the load in the words of the contact study.
    let states: Vec<Vec<_>> = case.mapped(|basis, angle, speed| {
        let forces = basis.at(angle, speed);
        let force = libm::hypot(forces.pin, forces.pin_side);
        let pulls = forces.pin < 0.0;
        (force / net, pulls, if pulls { &pull } else { &push }.load(eye.looseness(force, fit)))
    });
    for (number, &angle) in family.angles().iter().enumerate() {
        let hoop = Vector3::new(-libm::sin(angle), -libm::cos(angle), 0.0);
        let mirrored = Vector3::new(-libm::sin(angle), libm::cos(angle), 0.0);
        for outside in [false, true] {
            let history: Vec<Vec<f64>> = states
                .iter()
                .map(|step| {
                    let factor = |pulls: bool, load| if pulls { &pull } else { &push }.factor(load, outside, number);
                    step.iter().map(|&(nominal, pulls, load)| nominal * factor(pulls, load)).collect()
                })
                .collect();
            for hoop in [hoop, mirrored] {
                found.push(PistonSpot {
                    place: PistonPlace::Boss { angle, outside },
                    shape: hoop * hoop.transpose(),
                    lay: wall_lay(&case.model.print),
                    kelvin,
                    history: history.clone(),
                    crushing: 1.0,
                });
            }
        }
    }
    found
}
