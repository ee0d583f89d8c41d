use nalgebra::{Point3, Vector3, Vector6};

use super::cases::RodField;
use super::closer::Closer;
use super::duty::states;
use super::gather::{Gathered, gathered, worth_a_window};
use super::judge::{Angles, Judge, Judged};
use super::raise::least_by_stress;
use super::solved::{FieldCase, Solving, combined};
use crate::Error;
use crate::field::{FieldError, tensor};
use crate::job::Scenario;
use crate::stress::{EyeFamily, Fibre, Fit, Thrust};
use crate::threads::map_in_order;
use crate::verdict::eye_stress::pin_force;
use crate::verdict::piece::Piece;
use crate::verdict::place::{End, RodPlace};
use crate::verdict::pressed::EyeState;
use crate::verdict::setting::Setting;
use crate::verdict::stressing::Stressing;
use crate::verdict::summary::ModeMargin;
use crate::verdict::temperatures::Temperatures;
use crate::wall::{Station, StepLimits, area_steps};

/// A place where the field finds the most harm.
#[derive(Debug, Clone)]
pub struct FieldSpot {
    /// Where, in words.
    pub place: RodPlace,
    /// In the frame of the rod, m.
    pub position: Point3<f64>,
    /// Outward unit vector of the surface there.
    pub normal: Vector3<f64>,
    /// What gives way there first, and when.
    pub mode: ModeMargin,
    /// Every mode that stress makes there, the least margin first.
    pub modes: Vec<ModeMargin>,
    /// What the sections find of the same eye, or of the nearest section of the shank, by such modes.
    pub sections: Option<ModeMargin>,
    /// Whether it was seen with finer cells.
    pub finer: bool,
    /// When most of the strength is used, and what loads the rod then.
    pub moment: Moment,
    /// The principal stress of greatest size when most of the strength is used, Pa; tension positive.
    pub stress: f64,
    /// That stress over the nominal one then: pin force over net section of an eye, the section's own greatest stress in
    /// the shank. `None` where there is next to none.
    pub factor: Option<f64>,
    /// What the section model takes for the factor.
    pub section_factor: f64,
    /// Whether it lies at a sharp inner corner, where the value depends on the size of cells: it does not count.
    pub sharp: bool,
    pub(super) piece: Piece,
}

/// One moment of the duty and what acts on the rod, in its own frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Moment {
    /// Speed, rpm.
    pub rpm: f64,
    /// Crank angle from top dead centre, rad.
    pub crank_angle: f64,
    /// Stress at the place, Pa: xx, yy, zz, yz, zx, xy.
    pub stress: Vector6<f64>,
    /// The same without what warmth adds.
    pub mechanical: Vector6<f64>,
    /// Share of the used strength that tractions on the layer plane take.
    pub layer_share: f64,
    /// Pressure round both bores, Pa, by angle from the rod's end, degrees: linear between.
    pub pressures: [Vec<(f64, f64)>; 2],
    /// Force of both pins across the rod, N.
    pub sideways: [f64; 2],
    /// Square of the rod's own angular velocity, rad²/s².
    pub spin_squared: f64,
}

/// What the stress field says of a rod.
#[derive(Debug, Clone)]
pub struct FieldFindings {
    /// Cells that hold material.
    pub cells: usize,
    /// Edge of a cell, m.
    pub edge: f64,
    /// The cases solved.
    pub cases: Vec<FieldCase>,
    /// The worst places, the least margin first.
    pub spots: Vec<FieldSpot>,
    /// Stress over what nine in ten bear for the wanted life at the middle of every facet, if it was asked for.
    pub facets: Option<Vec<Option<f64>>>,
}

impl RodField {
    /// Looks at every point of the surface over the duty, and closer at the worst places.
    pub(crate) fn findings(
        &self,
        stressing: &Stressing<'_>,
        scenario: &Scenario,
        temperatures: &Temperatures,
        facets: bool,
        solving: &mut Solving<'_>,
    ) -> Result<FieldFindings, Error> {
        let setting = Setting::new(stressing, scenario, &scenario.card, temperatures);
        let eyes = EyeState::both(stressing.model, scenario, &scenario.card, temperatures);
        let duty = states(self, &setting, &scenario.fits, eyes.map(|state| state.modulus));
        let judge = Judge::new(&setting, self, &duty);
        let count = self.solved.points.points.len();
        let first = map_in_order(count, |point| {
            judge.at(point, Angles::Few).map(|judged| (judged.margin(), judged.place, point))
        });
        let painted = |point: usize| first[point].map(|(margin, ..)| margin);
        let facets = facets.then(|| self.solved.points.painted(painted));
        let spread = 6.0 * self.solved.edge;
        let sharp = |point: usize| self.solved.corners.near(&self.solved.points.points[point].0);
        let places =
            gathered(first.into_iter().flatten().collect(), sharp, RodPlace::region, |a, b| alike(a, b, spread));
        let closer = map_in_order(places.len(), |k| {
            let Gathered { points, .. } = &places[k];
            let judged = points.iter().filter_map(|&point| judge.at(point, Angles::All));
            judged.reduce(|best, other| if other.margin() < best.margin() { other } else { best })
        });
        let mut judged: Vec<Judged> = closer.into_iter().flatten().collect();
        judged.sort_by(|a, b| a.margin().total_cmp(&b.margin()));
        let windows = worth_a_window(judged.iter().map(|at| (at.margin(), at.place.region(), sharp(at.point))));
        let mut spots = Vec::with_capacity(judged.len());
        for (number, judged) in judged.iter().enumerate() {
            let seen = match windows.iter().position(|&window| window == number) {
                Some(window) => {
                    if !solving(&format!("closer look, {}", judged.place), window, windows.len()) {
                        return Err(Error::Cancelled);
                    }
                    self.seen_closer(&judge, judged)?
                }
                None => None,
            };
            let (judged, closer) = seen.as_ref().map_or((judged, None), |(judged, closer)| (judged, Some(closer)));
            spots.extend(self.spot(&judge, judged, closer, &eyes));
        }
        spots.sort_by(|a: &FieldSpot, b| a.mode.margin.total_cmp(&b.mode.margin));
        Ok(FieldFindings {
            cells: self.solved.cells(),
            edge: self.solved.edge,
            cases: self.solved.cases.clone(),
            spots,
            facets,
        })
    }

    /// A place seen with finer cells at its worst moment; its stress at all others is scaled by as much as the use of
    /// strength then.
    fn seen_closer(&self, judge: &Judge<'_>, judged: &Judged) -> Result<Option<(Judged, Closer)>, FieldError> {
        let (step, angle) = judged.worst;
        let (position, _) = self.solved.points.points[judged.point];
        let spread = 6.0 * self.solved.edge;
        let worst = |points: &[Closer]| {
            let mut best: Option<(f64, Closer)> = None;
            for seen in points {
                let (piece, place) = judge.place(&seen.point);
                let same =
                    piece == judged.piece || matches!((piece, judged.piece), (Piece::Station(_), Piece::Station(_)));
                if !same || !alike(&place, &judged.place, spread) || self.solved.corners.near(&seen.point) {
                    continue;
                }
                let used = judge.used(judged.point, &seen.stress).utilisation;
                if best.is_none_or(|(most, _)| used > most) {
                    best = Some((used, *seen));
                }
            }
            best.map(|(_, seen)| seen)
        };
        let seen = self.solved.closer(&judge.duty.steps[step][angle], &position, worst)?;
        let before = judge.used(judged.point, &judged.stress).utilisation;
        Ok(seen.filter(|_| before > 0.0).and_then(|seen| {
            let used = judge.used(judged.point, &seen.stress);
            let factor = used.utilisation / before;
            let judged = judge.scaled(judged.point, Angles::All, factor, Some(used))?;
            Some((judged, seen))
        }))
    }

    fn spot(
        &self,
        judge: &Judge<'_>,
        judged: &Judged,
        closer: Option<&Closer>,
        states: &[EyeState; 2],
    ) -> Option<FieldSpot> {
        let mode = *judged.modes.first()?;
        let worst = closer.map_or(judged.stress, |closer| closer.stress);
        let principal = tensor(&worst).symmetric_eigenvalues();
        let stress = if principal.max() >= -principal.min() { principal.max() } else { principal.min() };
        let (position, normal) =
            closer.map_or(self.solved.points.points[judged.point], |closer| (closer.point, closer.normal));
        let (nominal, section_factor) = match (judged.piece, judged.place) {
            (Piece::Eye(end), RodPlace::Eye { outside, .. }) => eye_nominal(judge, judged, end, outside, states)?,
            (Piece::Station(index), _) => shank_nominal(judge, judged, index, position.x),
            (Piece::Eye(_), _) => return None,
        };
        // Below a hundredth of the stress itself a nominal one is that of nothing.
        let factor = (nominal > 0.01 * stress.abs()).then(|| stress.abs() / nominal);
        let sharp = self.solved.corners.near(&position);
        Some(FieldSpot {
            place: judged.place,
            position,
            normal,
            mode,
            modes: judged.modes.clone(),
            sections: least_by_stress(judge.setting, judged.piece),
            moment: self.moment(judge, judged, &worst),
            finer: closer.is_some(),
            stress,
            factor,
            section_factor,
            sharp,
            piece: judged.piece,
        })
    }
}

impl RodField {
    fn moment(&self, judge: &Judge<'_>, judged: &Judged, stress: &Vector6<f64>) -> Moment {
        let (step, angle) = judged.worst;
        let stressing = judge.setting.stressing;
        let forces = &stressing.forces[step];
        let state = &judge.duty.steps[step][angle];
        let warmth = self.turning + 1;
        let mut only_warm = vec![0.0; state.len()];
        only_warm[warmth] = state[warmth];
        let [small, big] = &self.bores;
        let turns = stressing.loading.turns_per_cycle;
        Moment {
            rpm: stressing.loading.duty.steps()[step].rpm,
            crank_angle: angle as f64 / forces.angles() as f64 * turns * core::f64::consts::TAU,
            stress: *stress,
            mechanical: stress - combined(self.solved.at(judged.point), &only_warm),
            layer_share: judged.layer_share,
            pressures: [small, big].map(|solved| solved.pressures(state)),
            sideways: [small, big].map(|solved| f64::from(state[solved.side])),
            spin_squared: f64::from(state[self.turning]),
        }
    }
}

/// Whether two points are of one place: neighbours and their mirror images.
fn alike(a: &RodPlace, b: &RodPlace, spread: f64) -> bool {
    /// Angle within which points round an eye are one place, rad.
    const TURN: f64 = 25.0 / 180.0 * core::f64::consts::PI;
    match (a, b) {
        (RodPlace::Eye { end, angle, outside }, RodPlace::Eye { end: e, angle: t, outside: o }) => {
            end == e && outside == o && (angle - t).abs() < TURN
        }
        (RodPlace::ShankAt { position }, RodPlace::ShankAt { position: p }) => (position - p).abs() < spread,
        _ => false,
    }
}

/// Pin force over net section when the point is worst, Pa, and the contact study's factor then.
fn eye_nominal(
    judge: &Judge<'_>,
    judged: &Judged,
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
fn shank_nominal(judge: &Judge<'_>, judged: &Judged, index: usize, position: f64) -> (f64, f64) {
    let model = judge.setting.model;
    let (step, angle) = judged.worst;
    let station = &model.stations[index];
    let force = judge.setting.stressing.forces[step].section(index).at(angle);
    let stress = |fibre: &Fibre| fibre.stress(&force).abs();
    let nominal = station.fibres.iter().map(stress).fold(0.0, f64::max);
    let shank: Vec<Station> =
        model.load_path().filter(|(_, s)| !s.fibres.is_empty()).map(|(_, s)| Station::of(&s.section)).collect();
    let near = |from: f64, to: f64| {
        let reach = (to - from).abs();
        position > from - reach && position < to + reach
    };
    let steps = area_steps(&shank, &StepLimits::of_rod(model.length));
    let factors = steps.iter().filter(|step| near(step.from, step.to)).map(|step| step.concentration);
    (nominal, factors.fold(1.0, f64::max))
}
