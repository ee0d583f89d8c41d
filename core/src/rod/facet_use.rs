use nalgebra::{Point3, Vector2, Vector3};

use super::eye_stress::EyeStress;
use super::model::Region;
use super::piece::Piece;
use super::place::{End, RodPlace};
use super::setting::{Here, LineStrength, Setting};
use super::stressing::Stressing;
use super::temperatures::Temperatures;
use super::wear::Worn;
use super::worst::Worst;
use crate::job::Scenario;
use crate::load::SectionForce;
use crate::material::Lay;
use crate::numeric::map_blocks;
use crate::part::{Eye, Rod};
use crate::rod::{ring, shank};
use crate::stress::{EYE_ANGLES, Fibre};
use crate::verdict::Known;

/// An eye reaches this far, in widths of its ring beyond the bore: what lies farther is shank.
const EYE_REACH: f64 = 1.5;

/// Stress at the middle of every facet of a rod over what nine prints in ten bear there for the wanted life, once and
/// again and again: 1 over the margin, at the facet's own place and temperature.
///
/// In the shank it is the stress along the rod by the section's own forces, taken as lasting as the section's nearest
/// corner, whose life is counted, or that of the middle of the depth with its shear; round an eye the hoop stress of the
/// contact study, counted at its angles and linear between them and between bore and outer surface.
pub fn facet_use(rod: &Rod, stressing: &Stressing<'_>, scenario: &Scenario, temperatures: &Temperatures) -> Vec<f64> {
    let setting = Setting::new(stressing, scenario, &scenario.card, temperatures);
    let shank = ShankUse::of(&setting);
    let eyes =
        [(End::Small, &rod.small_end), (End::Big, &rod.big_end)].map(|(end, eye)| EyeUse::of(&setting, end, eye));
    let mesh = &rod.mesh;
    map_blocks(mesh.facets().len(), 8192, |range| {
        range
            .map(|facet| {
                let middle = mesh.middle(facet);
                let round = eyes.iter().flatten().filter_map(|eye| eye.at(&middle)).reduce(f64::max);
                round.unwrap_or_else(|| shank.at(&middle))
            })
            .collect::<Vec<f64>>()
    })
    .concat()
}

/// Stations of the shank with the forces at the angles at which one of their fibres has its least or greatest stress:
/// stress is linear over a section, so no point between the fibres has its extreme at another.
struct ShankUse {
    stations: Vec<StationUse>,
}

struct StationUse {
    position: f64,
    section: crate::section::AreaProperties,
    forces: Vec<SectionForce>,
    strength: LineStrength,
    /// At each outermost corner, from the centroid, what turns stress over mean strength into stress over what is borne for
    /// the wanted life.
    lasting: Vec<(Vector2<f64>, f64)>,
    /// Stress over what is borne in the middle of the depth, by pull, push and shear together, and half the depth, m.
    middle: (f64, f64),
}

impl ShankUse {
    fn of(setting: &Setting<'_>) -> Self {
        let shank = setting.model.load_path().filter(|(_, station)| station.region == Region::Shank);
        let stations = shank
            .map(|(index, station)| {
                let mut forces = Vec::new();
                for step in setting.stressing.forces.iter() {
                    let all = step.section(index);
                    for fibre in &station.fibres {
                        let stress: Vec<f64> = fibre.stresses(&all).collect();
                        let angles = 0..stress.len();
                        let least = angles.clone().min_by(|&a, &b| stress[a].total_cmp(&stress[b]));
                        let most = angles.max_by(|&a, &b| stress[a].total_cmp(&stress[b]));
                        forces.extend(least.into_iter().chain(most).map(|angle| all.at(angle)));
                    }
                }
                let Here { kept, bond, .. } = setting.here(Piece::Station(index), RodPlace::Shank);
                let strength = LineStrength::new(setting, &Vector3::x(), Lay::Wall, kept, bond);
                let fibres = &setting.stressing.station(index).fibres;
                let lasting = fibres.iter().zip(&station.fibres).enumerate().filter_map(|(number, (stress, fibre))| {
                    let (low, high) = stress.whole();
                    let used = strength.utilisation(low).max(strength.utilisation(high));
                    let demand = demand(setting, used, shank::fibre(setting, index, number, Known::default()).as_ref());
                    (used > 0.0).then(|| (fibre.offset, demand / used))
                });
                let lasting = lasting.collect();
                let (once, running) = shank::middle(setting, index, &Worst::<()>::default());
                let middle = (1.0 / once.margin.max(1e-9))
                    .max(1.0 / running.map_or(f64::INFINITY, |worn| worn.margin()).max(1e-9));
                let half_depth = station.fibres.iter().map(|fibre| fibre.offset.x.abs()).fold(0.0, f64::max);
                StationUse {
                    position: station.section.position,
                    section: station.makeup.stiffness,
                    forces,
                    strength,
                    lasting,
                    middle: (middle, half_depth),
                }
            })
            .collect();
        Self { stations }
    }

    fn at(&self, point: &Point3<f64>) -> f64 {
        let above = self.stations.partition_point(|station| station.position <= point.x);
        let near = [above.checked_sub(1), Some(above)].into_iter().flatten().filter_map(|k| self.stations.get(k));
        let nearest = near.min_by(|a, b| (a.position - point.x).abs().total_cmp(&(b.position - point.x).abs()));
        let Some(station) = nearest else { return 0.0 };
        let place = Vector2::new(point.y, point.z) - station.section.centroid;
        let fibre = Fibre::new(place, &station.section);
        let corner = station.lasting.iter().min_by(|a, b| (a.0 - place).norm().total_cmp(&(b.0 - place).norm()));
        let used = station.forces.iter().map(|force| station.strength.utilisation(fibre.stress(force)));
        let fibres = corner.map_or(0.0, |(_, lasting)| lasting * used.fold(0.0, f64::max));
        // Shear falls off from the middle as in a bar of even width (Timoshenko).
        let (middle, half_depth) = station.middle;
        let height = (place.x / half_depth.max(f64::MIN_POSITIVE)).clamp(-1.0, 1.0);
        fibres.max(middle * (1.0 - height * height))
    }
}

/// Stress over what is borne, from stress over mean strength by one load and from what running does.
fn demand(setting: &Setting<'_>, used: f64, worn: Option<&Worn>) -> f64 {
    let running = worn.map_or(0.0, |worn| 1.0 / worn.margin().max(1e-9));
    running.max(used / setting.ten_percent_strength)
}

/// Use of the strength round an eye, at the angles of the contact study.
struct EyeUse {
    center: Point3<f64>,
    outward: f64,
    radius: f64,
    ligament: f64,
    /// At the bore and outside, on the side of positive and of negative `y`.
    used: [[[f64; EYE_ANGLES]; 2]; 2],
}

impl EyeUse {
    fn of(setting: &Setting<'_>, end: End, eye: &Eye) -> Option<Self> {
        let model = setting.model.eyes[end as usize]?;
        let stress = setting.stressing.eye(end)?;
        let kept = setting.kept(Piece::Eye(end));
        let outward = if end == End::Small { -1.0 } else { 1.0 };
        let mut used = [[[0.0; EYE_ANGLES]; 2]; 2];
        for (place, point) in setting.model.eye_points[end as usize].iter().enumerate() {
            let bond = setting.bond_of_line(end, point);
            let strength = LineStrength::new(setting, &point.hoop, point.lay, kept, bond);
            let (low, high) = stress.spots[EyeStress::spot(point.angle, point.outside)].whole();
            let once = strength.utilisation(low).max(strength.utilisation(high));
            let here = demand(setting, once, ring::point(setting, end, place, Known::default()).as_ref());
            let side = point.point.y - eye.center.y;
            // Points on the axis of the rod stand for both sides.
            for (number, sign) in [1.0, -1.0].into_iter().enumerate() {
                if side * sign >= -1e-9 {
                    used[number][usize::from(point.outside)][point.angle] = here;
                }
            }
        }
        Some(Self { center: eye.center, outward, radius: model.radius, ligament: model.ligament, used })
    }

    fn at(&self, point: &Point3<f64>) -> Option<f64> {
        let arm = Vector2::new(self.outward * (point.x - self.center.x), point.y - self.center.y);
        let distance = arm.norm();
        let beyond = arm.x > 0.0;
        if !beyond && distance > self.radius + EYE_REACH * self.ligament {
            return None;
        }
        let angle = libm::atan2(arm.y.abs(), arm.x) / core::f64::consts::PI * (EYE_ANGLES - 1) as f64;
        let below = (angle.floor() as usize).min(EYE_ANGLES - 2);
        let share = angle - below as f64;
        let at = |values: &[f64; EYE_ANGLES]| values[below] + share * (values[below + 1] - values[below]);
        let [bore, outer] = &self.used[usize::from(arm.y < 0.0)];
        let depth = ((distance - self.radius) / self.ligament).clamp(0.0, 1.0);
        Some(at(bore) + depth * (at(outer) - at(bore)))
    }
}
