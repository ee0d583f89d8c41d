//! Stresses of the crown: a plate held by its wall, and thin places in it as plates of their own.

use nalgebra::{Matrix3, Vector3};

use super::assess::PistonCase;
use super::place::PistonPlace;
use super::spots::{PistonSpot, crossed, crown_pressure, poisson_ratio, scaled, worst_round};
use crate::material::{Card, Lay};
use crate::stress::{GradedPlate, HeldEdge, StressError};
use crate::wall::Bridge;

/// Stresses of a crown as its wall holds it, and between which bounds that lies.
#[derive(Default)]
pub(crate) struct Crown {
    /// Edge held by the wall; with the shear there.
    pub(crate) held: Vec<PistonSpot>,
    /// Edge simply supported.
    pub(crate) supported: Vec<PistonSpot>,
    /// Edge clamped.
    pub(crate) clamped: Vec<PistonSpot>,
    /// Share of a clamp's moment that the wall holds.
    pub(crate) share: f64,
}

impl PistonCase<'_> {
    /// Share of a clamp's moment that the crown's wall holds, at the temperatures of both.
    pub(crate) fn edge_hold(&self, card: &Card, plate: &GradedPlate) -> Result<f64, StressError> {
        let model = self.model;
        let material = card.at(self.scenario.temperature, self.scenario.moisture);
        let stiffest = self.crown_temperatures().iter().map(|&kelvin| card.share_at(kelvin).1).fold(1e-4, f64::max);
        let wall = card.share_at(self.wall_temperature(model.crown.underside)).1;
        HeldEdge {
            radius: model.plate_radius,
            thickness: plate.equal_thickness(),
            wall: model.edge_wall,
            stiffness: wall / stiffest,
            poisson_ratio: poisson_ratio(&material),
        }
        .share()
    }
}

pub(crate) fn crown(case: &PistonCase<'_>, card: &Card) -> Result<Crown, StressError> {
    let model = case.model;
    let material = card.at(case.scenario.temperature, case.scenario.moisture);
    let nu = poisson_ratio(&material);
    let heated = Heated::new(case.warm.depths.clone(), case.crown_temperatures().to_vec(), card)?;
    let plate = &heated.plate;
    let radius = model.plate_radius;
    let layers: f64 = case.piston.layers.iter().map(|layer| layer.density * layer.thickness).sum();
    let pressure = crown_pressure(case, layers + material.density * model.crown_thickness);
    let share = case.edge_hold(card, plate)?;
    let mut found = Crown { share, ..Crown::default() };
    for (share, list) in [(share, &mut found.held), (0.0, &mut found.supported), (1.0, &mut found.clamped)] {
        let edge = Edge { radius, share, nu };
        list.extend(edge.bent(case, card, &heated, &pressure, |depth, at_edge| {
            if at_edge { PistonPlace::CrownEdge { depth } } else { PistonPlace::CrownMiddle { depth } }
        }));
    }
    // Shear at the edge, p a / 2 per length; 1.5 times the mean half way through what still carries.
    let shear = 1.5 * 0.5 * radius / plate.equal_thickness();
    let (neutral, depths) = (plate.neutral_depth(), &heated.depths);
    let nearest =
        (0..depths.len()).min_by(|&a, &b| (depths[a] - neutral).abs().total_cmp(&(depths[b] - neutral).abs()));
    found.held.push(PistonSpot {
        place: PistonPlace::CrownEdgeShear,
        shape: worst_round(case, card, |r, _| crossed(&Vector3::x(), &r)),
        lay: Lay::Lines,
        kelvin: nearest.map_or(case.scenario.temperature, |index| case.crown_temperatures()[index]),
        history: scaled(&pressure, shear),
        crushing: 0.0,
    });
    for bridge in &model.crown.bridges {
        found.held.extend(over_pocket(case, card, bridge)?);
    }
    Ok(found)
}

/// A plate by what heat leaves of it at each depth.
struct Heated {
    depths: Vec<f64>,
    kelvins: Vec<f64>,
    /// Share of strength left.
    kept: Vec<f64>,
    plate: GradedPlate,
}

impl Heated {
    fn new(depths: Vec<f64>, kelvins: Vec<f64>, card: &Card) -> Result<Self, StressError> {
        let shares: Vec<(f64, f64)> = kelvins.iter().map(|&kelvin| card.share_at(kelvin)).collect();
        // Rubber has some stiffness left; without any the plate would have none.
        let moduli: Vec<f64> = shares.iter().map(|share| share.1.max(1e-4)).collect();
        let plate = GradedPlate::new(&depths, &moduli)?;
        Ok(Self { depths, kelvins, kept: shares.iter().map(|share| share.0).collect(), plate })
    }
}

/// How a round plate is held.
struct Edge {
    radius: f64,
    /// Share of a clamp's moment.
    share: f64,
    nu: f64,
}

impl Edge {
    /// Middle and edge of the plate, each where it is pulled and where it is pushed the most.
    fn bent(
        &self,
        case: &PistonCase<'_>,
        card: &Card,
        heated: &Heated,
        pressure: &[Vec<f64>],
        place: impl Fn(f64, bool) -> PistonPlace,
    ) -> Vec<PistonSpot> {
        let Self { radius, share, nu } = *self;
        let Heated { depths, kelvins, kept, plate } = heated;
        let per_moment = plate.stress_per_moment();
        let even = Matrix3::from_diagonal(&Vector3::new(0.0, 1.0, 1.0));
        // Simply supported the middle carries (3 + nu) p a² / 16; what the edge holds of a clamp's p a² / 8 is taken off
        // all over. Round the edge that leaves (1 - nu - share) p a² / 8 (Roark; Timoshenko).
        let (middle, edge) = (((3.0 + nu) / 16.0 - 0.125 * share) * radius * radius, -0.125 * share * radius * radius);
        let round = if share > 1e-6 { (share - 1.0 + nu) / share } else { 0.0 };
        let edgewise = worst_round(case, card, |r, t| r * r.transpose() + t * t.transpose() * round);
        let mut found = Vec::new();
        for (moment, at_edge) in [(middle, false), (edge, true)] {
            // Of each sign of stress the depth that uses the most of its own strength.
            for sign in [1.0, -1.0] {
                let used = |index: usize| sign * per_moment[index] * moment / kept[index].max(1e-6);
                let worst = (0..depths.len()).max_by(|&a, &b| used(a).total_cmp(&used(b)));
                let Some(index) = worst.filter(|&index| used(index) > 0.0) else { continue };
                found.push(PistonSpot {
                    place: place(depths[index], at_edge),
                    shape: if at_edge { edgewise } else { even },
                    lay: Lay::Lines,
                    kelvin: kelvins[index],
                    history: scaled(pressure, per_moment[index] * moment),
                    crushing: 1.0,
                });
            }
        }
        found
    }
}

/// A thin place as a clamped plate of its own area: the rest of the crown round it is more than twice as thick, which is eight
/// times as stiff.
fn over_pocket(case: &PistonCase<'_>, card: &Card, bridge: &Bridge) -> Result<Vec<PistonSpot>, StressError> {
    let material = card.at(case.scenario.temperature, case.scenario.moisture);
    let thickness = bridge.thickness.min(case.model.crown_thickness);
    let mut depths: Vec<f64> =
        case.warm.depths.iter().copied().take_while(|&depth| depth < thickness * (1.0 - 1e-6)).collect();
    depths.push(thickness);
    let kelvins = depths.iter().map(|&depth| case.warm.crown_at(depth)).collect();
    let heated = Heated::new(depths, kelvins, card)?;
    let layers: f64 = case.piston.layers.iter().map(|layer| layer.density * layer.thickness).sum();
    let pressure = crown_pressure(case, layers + material.density * thickness);
    let edge = Edge { radius: bridge.radius(), share: 1.0, nu: poisson_ratio(&material) };
    let middle = bridge.at.norm();
    Ok(edge.bent(case, card, &heated, &pressure, |depth, at_edge| {
        let radius = if at_edge { middle + bridge.radius() } else { middle };
        PistonPlace::CrownAt { radius, depth }
    }))
}
