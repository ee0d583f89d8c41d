use super::cases::PistonField;
use super::judge::Judge;
use super::raise::least_by_stress;
use crate::Error;
use crate::piston::assess::{PistonAssessment, PistonCase};
use crate::piston::place::PistonPlace;
use crate::stress::{EyeFamily, Fit, GradedPlate, Thrust};
use crate::verdict::field::{FieldFindings, FieldSpot, Found, Moment, SolvedCases, Solving, search};

/// What acts on a piston, in its own frame.
#[derive(Debug, Clone, PartialEq)]
pub struct OnPiston {
    /// Pressure on crown and top land, Pa.
    pub gas: f64,
    /// Pressure of the pin by angle from the crown's side, degrees and Pa: linear between.
    pub pin: Vec<(f64, f64)>,
    /// Force of the pin across, N.
    pub sideways: f64,
    /// Force of the cylinder's wall on the skirt toward y and on that away from it, N.
    pub wall: [f64; 2],
}

/// A hot spot of a piston.
pub type PistonFieldSpot = FieldSpot<PistonPlace, OnPiston>;

/// What the stress field says of a piston.
pub type PistonFieldFindings = FieldFindings<PistonPlace, OnPiston>;

impl PistonField {
    /// Looks at every point of the surface over the duty, and closer at the worst places; `sections` is what plates, rings
    /// and cuts find.
    pub(crate) fn findings(
        &self,
        case: &PistonCase<'_>,
        sections: &PistonAssessment,
        facets: bool,
        solving: &mut Solving<'_>,
    ) -> Result<PistonFieldFindings, Error> {
        let states = self.states(case);
        let judge = Judge::new(case, self, &states);
        let (found, facets) = search(&judge, facets, solving)?;
        let spots = found.iter().filter_map(|found| self.spot(&judge, found, sections)).collect();
        let SolvedCases { edge, ref cases, .. } = self.solved;
        Ok(PistonFieldFindings { cells: self.solved.cells(), edge, cases: cases.clone(), spots, facets })
    }

    fn spot(
        &self,
        judge: &Judge<'_>,
        found: &Found<PistonPlace>,
        sections: &PistonAssessment,
    ) -> Option<PistonFieldSpot> {
        let (case, judged) = (judge.case, &found.judged);
        let (step, angle) = judged.worst;
        let state = &judge.states.steps[step][angle];
        let (nominal, section_factor) = self.nominal(case, &judged.place, (step, angle), state);
        let turns = case.loading.turns_per_cycle;
        Some(PistonFieldSpot {
            place: judged.place,
            position: found.position,
            normal: found.normal,
            mode: *judged.modes.first()?,
            modes: judged.modes.clone(),
            sections: least_by_stress(sections, judged.place.region()),
            moment: Moment {
                rpm: case.loading.duty.steps()[step].rpm * case.factor,
                crank_angle: angle as f64 / case.loading.basis(step).angles() as f64 * turns * core::f64::consts::TAU,
                stress: found.stress,
                mechanical: self.warmth.map_or(found.stress, |warmth| found.without(&self.solved, warmth, state)),
                layer_share: judged.layer_share,
                acting: OnPiston {
                    gas: f64::from(state[self.gas]),
                    pin: self.bore.pressures(state),
                    sideways: f64::from(state[self.bore.side]),
                    wall: self.wall(state),
                },
            },
            finer: found.finer,
            stress: found.principal,
            factor: found.factor(nominal),
            section_factor,
            sharp: found.sharp,
            depth: found.depth,
        })
    }

    /// Nominal stress at a place and moment, Pa, and the handbook's factor on it.
    fn nominal(
        &self,
        case: &PistonCase<'_>,
        place: &PistonPlace,
        (step, angle): (usize, usize),
        state: &[f32],
    ) -> (f64, f64) {
        let model = case.model;
        let (basis, speed) = (case.loading.basis(step), case.loading.speed(step, case.factor));
        match *place {
            PistonPlace::CrownAt { radius, .. } => {
                let gas = f64::from(state[self.gas]).abs();
                let slender = model.plate_radius / model.crown_thickness;
                (gas * slender * slender, crown_factor(case, radius))
            }
            PistonPlace::Boss { outside, .. } => {
                let Some(eye) = model.boss else { return (0.0, 1.0) };
                let forces = basis.at(angle, speed);
                let force = libm::hypot(forces.pin, forces.pin_side);
                let kelvin = case.before_softening(case.boss_temperature());
                let modulus = case.scenario.card.at(kelvin, case.scenario.moisture).in_plane_modulus();
                let fit = Fit { radial_clearance: case.piston.pin_clearance, modulus };
                let thrust = if forces.pin < 0.0 { Thrust::Pull } else { Thrust::Push };
                let factors = EyeFamily::embedded().factors(thrust, eye.width_ratio(), eye.looseness(force, fit));
                let round = if outside { factors.outer } else { factors.bore };
                (force / eye.net_area(), round.iter().copied().fold(0.0, f64::max))
            }
            PistonPlace::BeltAt { height, .. } | PistonPlace::WallAt { height, .. } => {
                let away = |index: &usize| (model.stations[*index].section.position - height).abs();
                let stations = case.loaded_stations().map(|(index, _)| index);
                let nearest = stations.min_by(|a, b| away(a).total_cmp(&away(b)));
                nearest.map_or((0.0, 1.0), |index| {
                    let station = &model.stations[index];
                    let force = basis.section(index, angle, speed).abs();
                    (force / station.makeup.stiffness.area, station.notch)
                })
            }
            _ => (0.0, 1.0),
        }
    }
}

/// Greatest stress of an even round plate held as the crown is, over pressure times the square of radius over thickness: in
/// its inner half that of the middle, outside it the greater of middle and edge (Roark; Timoshenko).
fn crown_factor(case: &PistonCase<'_>, radius: f64) -> f64 {
    let card = &case.scenario.card;
    let moduli: Vec<f64> = case.warm.crown.iter().map(|&kelvin| card.share_at(kelvin).1.max(1e-4)).collect();
    let held = GradedPlate::new(&case.warm.depths, &moduli).and_then(|plate| case.edge_hold(card, &plate));
    let nu = card.at(case.scenario.temperature, case.scenario.moisture).poisson_ratio.clamp(0.0, 0.5);
    let share = held.unwrap_or(0.0);
    let (middle, edge) = (0.375 * (3.0 + nu) - 0.75 * share, 0.75 * share);
    if radius < 0.5 * case.model.plate_radius { middle } else { middle.max(edge) }
}
