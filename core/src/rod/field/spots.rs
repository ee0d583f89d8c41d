use super::cases::RodField;
use super::duty::states;
use super::judge::Judge;
use super::raise::least_by_stress;
use crate::Error;
use crate::job::Scenario;
use crate::rod::eye_stress::pin_force;
use crate::rod::piece::Piece;
use crate::rod::place::{End, RodPlace};
use crate::rod::pressed::EyeState;
use crate::rod::setting::Setting;
use crate::rod::stressing::Stressing;
use crate::rod::temperatures::Temperatures;
use crate::stress::{EyeFamily, Fibre, Fit, Thrust};
use crate::verdict::field::{FieldFindings, FieldSpot, Found, Judged, Moment, SolvedCases, Solving, search};
use crate::wall::{AreaStation, StepLimits, area_steps};

/// What acts on a rod, in its own frame.
#[derive(Debug, Clone, PartialEq)]
pub struct OnRod {
    /// Pressure round both bores, Pa, by angle from the rod's end, degrees: linear between.
    pub pressures: [Vec<(f64, f64)>; 2],
    /// Force of both pins across the rod, N.
    pub sideways: [f64; 2],
    /// Square of the rod's own angular velocity, rad²/s².
    pub spin_squared: f64,
}

/// A hot spot of a rod.
pub type RodFieldSpot = FieldSpot<RodPlace, OnRod>;

/// What the stress field says of a rod.
pub type RodFieldFindings = FieldFindings<RodPlace, OnRod>;

impl RodField {
    /// Looks at every point of the surface over the duty, and closer at the worst places.
    pub(crate) fn findings(
        &self,
        stressing: &Stressing<'_>,
        scenario: &Scenario,
        temperatures: &Temperatures,
        facets: bool,
        solving: &mut Solving<'_>,
    ) -> Result<RodFieldFindings, Error> {
        let setting = Setting::new(stressing, scenario, &scenario.card, temperatures);
        let eyes = EyeState::both(stressing.model, scenario, &scenario.card, temperatures);
        let duty = states(self, &setting, &scenario.fits, eyes.map(|state| state.modulus));
        let judge = Judge::new(&setting, self, &duty);
        let (found, facets) = search(&judge, facets, solving)?;
        let spots = found.iter().filter_map(|found| self.spot(&judge, found, &eyes)).collect();
        let SolvedCases { edge, ref cases, .. } = self.solved;
        Ok(FieldFindings { cells: self.solved.cells(), edge, cases: cases.clone(), spots, facets })
    }

    fn spot(&self, judge: &Judge<'_>, found: &Found<RodPlace>, states: &[EyeState; 2]) -> Option<RodFieldSpot> {
        let judged = &found.judged;
        let (piece, _) = judge.piece(&self.solved.points.points[judged.point].0);
        let (nominal, section_factor) = match (piece, judged.place) {
            (Piece::Eye(end), RodPlace::Eye { outside, .. }) => eye_nominal(judge, judged, end, outside, states)?,
            (Piece::Station(index), _) => shank_nominal(judge, judged, index, found.position.x),
            (Piece::Eye(_), _) => return None,
        };
        Some(FieldSpot {
            place: judged.place,
            position: found.position,
            normal: found.normal,
            mode: *judged.modes.first()?,
            modes: judged.modes.clone(),
            sections: least_by_stress(judge.setting, piece),
            moment: self.moment(judge, found),
            finer: found.finer,
            stress: found.principal,
            factor: found.factor(nominal),
            section_factor,
            sharp: found.sharp,
            depth: found.depth,
        })
    }

    fn moment(&self, judge: &Judge<'_>, found: &Found<RodPlace>) -> Moment<OnRod> {
        let Found { judged, stress, .. } = found;
        let (step, angle) = judged.worst;
        let stressing = judge.setting.stressing;
        let forces = &stressing.forces[step];
        let state = &judge.duty.steps[step][angle];
        let [small, big] = &self.bores;
        let turns = stressing.loading.turns_per_cycle;
        Moment {
            rpm: stressing.loading.duty.steps()[step].rpm,
            crank_angle: angle as f64 / forces.angles() as f64 * turns * core::f64::consts::TAU,
            stress: *stress,
            // Warmth is the case after turning.
            mechanical: found.without(&self.solved, self.turning + 1, state),
            layer_share: judged.layer_share,
            acting: OnRod {
                pressures: [small, big].map(|solved| solved.pressures(state)),
                sideways: [small, big].map(|solved| f64::from(state[solved.side])),
                spin_squared: f64::from(state[self.turning]),
            },
        }
    }
}

/// Pin force over net section when the point is worst, Pa, and the contact study's factor then.
fn eye_nominal(
    judge: &Judge<'_>,
    judged: &Judged<RodPlace>,
    end: End,
    outside: bool,
    states: &[EyeState; 2],
) -> Option<(f64, f64)> {
    let setting = judge.setting;
    let eye = setting.model.eyes[end as usize]?;
    let (step, angle) = judged.worst;
    let pin = pin_force(&setting.stressing.forces[step], end, angle);
    let force = libm::hypot(pin.along, pin.across);
    let outward = if end == End::Small { -1.0 } else { 1.0 };
    let thrust = if pin.along * outward > 0.0 { Thrust::Pull } else { Thrust::Push };
    let fit = Fit { radial_clearance: end.clearance(&setting.scenario.fits), modulus: states[end as usize].modulus };
    let factors = EyeFamily::embedded().factors(thrust, eye.width_ratio(), eye.looseness(force, fit));
    let round = if outside { factors.outer } else { factors.bore };
    Some((force / eye.net_area(), round.iter().copied().fold(0.0, f64::max)))
}

/// Greatest stress of the section when the point is worst, Pa, and the handbook's factor of a shoulder there.
fn shank_nominal(judge: &Judge<'_>, judged: &Judged<RodPlace>, index: usize, position: f64) -> (f64, f64) {
    let model = judge.setting.model;
    let (step, angle) = judged.worst;
    let station = &model.stations[index];
    let force = judge.setting.stressing.forces[step].section(index).at(angle);
    let stress = |fibre: &Fibre| fibre.stress(&force).abs();
    let nominal = station.fibres.iter().map(stress).fold(0.0, f64::max);
    let shank: Vec<AreaStation> =
        model.load_path().filter(|(_, s)| !s.fibres.is_empty()).map(|(_, s)| AreaStation::of(&s.section)).collect();
    let near = |from: f64, to: f64| {
        let reach = (to - from).abs();
        position > from - reach && position < to + reach
    };
    let steps = area_steps(&shank, &StepLimits::of_rod(model.length));
    let factors = steps.iter().filter(|step| near(step.from, step.to)).map(|step| step.concentration);
    (nominal, factors.fold(1.0, f64::max))
}
