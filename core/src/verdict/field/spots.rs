use nalgebra::Point3;

use super::cases::{FieldCase, RodField};
use super::duty::FieldDuty;
use super::judge::{Angles, Judge, Judged};
use crate::field::tensor;
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
    /// What gives way there first, and when.
    pub mode: ModeMargin,
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

/// Places listed at most.
const MOST: usize = 8;

/// Places at sharp inner corners listed at most.
const CORNERS: usize = 3;

/// Points of one place that are looked at over the whole cycle.
const CLOSER: usize = 6;

impl RodField {
    /// Looks at every point of the surface over the duty, and closer at the worst places.
    pub(crate) fn findings(
        &self,
        stressing: &Stressing<'_>,
        scenario: &Scenario,
        temperatures: &Temperatures,
        facets: bool,
    ) -> FieldFindings {
        let setting = Setting::new(stressing, scenario, &scenario.card, temperatures);
        let states = EyeState::both(stressing.model, scenario, &scenario.card, temperatures);
        let duty = FieldDuty::new(self, &setting, &scenario.fits, states.map(|state| state.modulus));
        let judge = Judge::new(&setting, self, &duty);
        let count = self.points.points.len();
        let first = map_in_order(count, |point| {
            judge.at(point, Angles::Few).map(|judged| (judged.margin(), judged.place, point))
        });
        let facets = facets.then(|| {
            (0..self.points.facets())
                .map(|facet| {
                    let margins =
                        self.points.of(facet).iter().filter_map(|&point| first[point as usize]).map(|(m, ..)| m);
                    margins.reduce(f64::min).map(|margin| 1.0 / margin.max(1e-9))
                })
                .collect()
        });
        let mut order: Vec<(f64, RodPlace, usize)> = first.into_iter().flatten().collect();
        order.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.2.cmp(&b.2)));
        let spread = 6.0 * self.edge;
        let mut places: Vec<(RodPlace, bool, Vec<usize>)> = Vec::new();
        for (_, place, point) in order {
            let sharp = self.corners.near(&self.points.points[point].0);
            let known = places.iter().position(|(known, s, _)| *s == sharp && alike(known, &place, spread));
            match known {
                Some(known) if places[known].2.len() < CLOSER => places[known].2.push(point),
                // At corners only the worst few are told, so that they do not crowd out what counts.
                None if places.iter().filter(|(_, s, _)| *s == sharp).count() < if sharp { CORNERS } else { MOST } => {
                    places.push((place, sharp, vec![point]));
                }
                Some(_) | None => {}
            }
        }
        let closer = map_in_order(places.len(), |k| {
            let judged = places[k].2.iter().filter_map(|&point| judge.at(point, Angles::All));
            judged.reduce(|best, other| if other.margin() < best.margin() { other } else { best })
        });
        let mut spots: Vec<FieldSpot> =
            closer.into_iter().flatten().filter_map(|judged| self.spot(&judge, &judged, &states)).collect();
        spots.sort_by(|a, b| a.mode.margin.total_cmp(&b.mode.margin));
        FieldFindings { cells: self.cells, edge: self.edge, cases: self.cases.clone(), spots, facets }
    }

    fn spot(&self, judge: &Judge<'_>, judged: &Judged, states: &[EyeState; 2]) -> Option<FieldSpot> {
        let mode = *judged.modes.first()?;
        let principal = tensor(&judged.stress).symmetric_eigenvalues();
        let stress = if principal.max() >= -principal.min() { principal.max() } else { principal.min() };
        let (position, _) = self.points.points[judged.point];
        let (nominal, section_factor) = match (judged.piece, judged.place) {
            (Piece::Eye(end), RodPlace::Eye { outside, .. }) => eye_nominal(judge, judged, end, outside, states)?,
            (Piece::Station(index), _) => shank_nominal(judge, judged, index, position.x),
            (Piece::Eye(_), _) => return None,
        };
        // Below a hundredth of the stress itself a nominal one is that of nothing.
        let factor = (nominal > 0.01 * stress.abs()).then(|| stress.abs() / nominal);
        let sharp = self.corners.near(&position);
        Some(FieldSpot {
            place: judged.place,
            position,
            mode,
            stress,
            factor,
            section_factor,
            sharp,
            piece: judged.piece,
        })
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
