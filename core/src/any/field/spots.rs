use super::judge::Judge;
use crate::Error;
use crate::any::place::AnyPlace;
use crate::field::tensor;
use crate::job::Every;
use crate::material::Use;
use crate::verdict::field::{FieldFindings, FieldSpot, Found, Judging, Moment, SolvedCases, Solving, combined, search};

/// What acts on a part when most of the strength is used: so much of each case of its field.
pub(crate) type OnAny = Vec<f32>;

/// What the stress field says of a part of any kind.
pub(crate) type AnyFindings = FieldFindings<AnyPlace, OnAny>;

/// A place that is judged again where an input changes: a point of the field with what finer cells made of it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Spot {
    pub(crate) point: usize,
    pub(crate) factor: f64,
    pub(crate) finer: Option<Use>,
}

/// Looks at every point of the surface over the duty, and closer at the worst places; those that count are the spots.
pub(crate) fn findings(
    judge: &Judge<'_>,
    facets: bool,
    solving: &mut Solving<'_>,
) -> Result<(AnyFindings, Vec<Spot>), Error> {
    let (found, facets) = search(judge, facets, solving)?;
    let spots =
        found.iter().filter(|found| !found.sharp || found.depth.is_some()).map(|found| spot_of(judge, found)).collect();
    let told = found.iter().filter_map(|found| told(judge, found)).collect();
    let SolvedCases { edge, ref cases, .. } = judge.field.solved;
    let cells = judge.field.solved.cells();
    Ok((AnyFindings { cells, edge, cases: cases.clone(), spots: told, facets }, spots))
}

fn spot_of(judge: &Judge<'_>, found: &Found<AnyPlace>) -> Spot {
    let judged = &found.judged;
    if !found.finer {
        return Spot { point: judged.point, factor: 1.0, finer: None };
    }
    // The stress that the search judged with is the field's own times a factor.
    let (step, moment) = judged.worst;
    let own = combined(judge.field.solved.at(judged.point), &judge.run.states.steps[step][moment]);
    let factor = judged.stress.norm() / own.norm().max(f64::MIN_POSITIVE);
    Spot { point: judged.point, factor, finer: Some(judge.used(judged.point, &found.stress)) }
}

fn told(judge: &Judge<'_>, found: &Found<AnyPlace>) -> Option<FieldSpot<AnyPlace, OnAny>> {
    let judged = &found.judged;
    let (step, moment) = judged.worst;
    let history = &judge.prepared.given.history;
    let turns = matches!(history.every, Every::Turns(_));
    Some(FieldSpot {
        place: judged.place,
        position: found.position,
        normal: found.normal,
        mode: *judged.modes.first()?,
        modes: judged.modes.clone(),
        sections: None,
        moment: Moment {
            rpm: judge.prepared.scenario.duty.steps()[step].rpm,
            crank_angle: if turns { history.moments[moment] } else { 0.0 },
            stress: found.stress,
            mechanical: found.stress,
            layer_share: judged.layer_share,
            acting: judge.run.states.steps[step][moment].clone(),
        },
        finer: found.finer,
        stress: found.principal,
        factor: None,
        section_factor: 1.0,
        sharp: found.sharp,
        depth: found.depth,
    })
}

/// Points that may be the worst in some build direction.
const CANDIDATES: usize = 40;

/// Points of one place are within so many cells.
const APART: f64 = 4.0;

/// Points of the greatest stress all over the part, beside the spots: in another build direction one of them may be the worst.
pub(crate) fn candidates(judge: &Judge<'_>, spots: &[Spot]) -> Vec<Spot> {
    let solved = &judge.field.solved;
    let few = judge.run.states.few();
    let points = &solved.points.points;
    let greatest = crate::numeric::map_in_order(points.len(), |point| {
        if !solved.known(point) || judge.held(point) || solved.corners.near(&points[point].0) {
            return 0.0;
        }
        let mut most = 0.0_f64;
        for (states, moments) in judge.run.states.steps.iter().zip(&few) {
            for &moment in moments {
                let stress = tensor(&combined(solved.at(point), &states[moment]));
                most = most.max(stress.norm());
            }
        }
        most
    });
    let mut order: Vec<usize> = (0..points.len()).filter(|&point| greatest[point] > 0.0).collect();
    order.sort_by(|&a, &b| greatest[b].total_cmp(&greatest[a]).then(a.cmp(&b)));
    let mut list = spots.to_vec();
    for point in order {
        if list.len() >= CANDIDATES {
            break;
        }
        let near = |spot: &Spot| (points[spot.point].0 - points[point].0).norm() < APART * solved.edge;
        if !list.iter().any(near) {
            list.push(Spot { point, factor: 1.0, finer: None });
        }
    }
    list
}
