use core::fmt::Display;
use std::collections::BTreeMap;

use nalgebra::{Point3, Vector3, Vector6};

use super::closer::Closer;
use super::corners::Corner;
use super::gather::{Gathered, gathered, standing};
use super::path::{Angles, States};
use super::solved::{SolvedCases, Solving};
use crate::Error;
use crate::field::combined;
use crate::field::{FieldError, tensor};
use crate::material::{CRITICAL_DISTANCE, Use};
use crate::numeric::{map_in_order, sort_few, sort_few_by_key, workers};
use crate::verdict::margin::ModeMargin;

/// Holds the stress at points of a part's surface against its material, over the whole duty.
pub(crate) trait Judging: Sync {
    /// A place in words.
    type Place: Copy + Display + Send + Sync;
    /// A part within which neighbours share the fate of the worst.
    type Region: PartialEq;

    fn solved(&self) -> &SolvedCases;

    fn states(&self) -> &States;

    /// Where a point is.
    fn place(&self, at: &Point3<f64>) -> Self::Place;

    fn region(place: &Self::Place) -> Self::Region;

    /// Whether two points are of one place: neighbours within `spread` (m) and their mirror images.
    fn alike(a: &Self::Place, b: &Self::Place, spread: f64) -> bool;

    /// Whether cells cannot tell the stress at a point.
    fn blurred(&self, _at: &Point3<f64>) -> bool {
        false
    }

    /// How much of the strength a stress would use at a point, Pa.
    fn used(&self, point: usize, stress: &Vector6<f64>) -> Use;

    /// What the duty does to a point, with all stress there times a factor and with what the worst stress is made of where that
    /// is known better; `None` where its stress is not known.
    fn at(&self, point: usize, angles: Angles, factor: f64, finer: Option<Use>) -> Option<Judged<Self::Place>>;
}

/// What the duty does to one point.
#[derive(Debug, Clone)]
pub(crate) struct Judged<P> {
    pub(crate) point: usize,
    pub(crate) place: P,
    /// One load and running, each mode with its margin; the least first.
    pub(crate) modes: Vec<ModeMargin<P>>,
    /// Step and crank angle at which most of the strength is used, and the stress then, Pa.
    pub(crate) worst: (usize, usize),
    pub(crate) stress: Vector6<f64>,
    /// Share of the used strength then that tractions on the layer plane take.
    pub(crate) layer_share: f64,
}

impl<P> Judged<P> {
    pub(crate) fn margin(&self) -> f64 {
        self.modes.first().map_or(f64::INFINITY, |mode| mode.margin)
    }
}

/// A place where the field finds the most harm, with finer cells where it was seen so.
#[derive(Debug, Clone)]
pub(crate) struct Found<P> {
    pub(crate) judged: Judged<P>,
    /// Whether it was seen with finer cells.
    pub(crate) finer: bool,
    pub(crate) position: Point3<f64>,
    pub(crate) normal: Vector3<f64>,
    /// When most of the strength is used, Pa, and of it the principal stress of greatest size.
    pub(crate) stress: Vector6<f64>,
    pub(crate) principal: f64,
    /// Whether it lies at a sharp inner corner.
    pub(crate) sharp: bool,
    /// How far below that its stress was taken, m; none where it could not be.
    pub(crate) depth: Option<f64>,
}

impl<P> Found<P> {
    /// Its stress in a state without what one case adds, Pa: a window shows all at once, so that is taken at the solved point
    /// nearest to the place.
    pub(crate) fn without(&self, solved: &SolvedCases, case: usize, state: &[f32]) -> Vector6<f64> {
        let mut alone = vec![0.0; state.len()];
        alone[case] = state[case];
        let near = solved.nearest(&self.position, &self.normal).unwrap_or(self.judged.point);
        self.stress - combined(solved.at(near), &alone)
    }

    /// Its stress over a nominal one, Pa: below a hundredth of the stress itself that is one of nothing.
    pub(crate) fn factor(&self, nominal: f64) -> Option<f64> {
        let stress = self.principal.abs();
        (nominal > 0.01 * stress).then(|| stress / nominal)
    }
}

/// The worst places, and for every facet its stress over what is borne there, if asked for.
pub(crate) type Search<P> = (Vec<Found<P>>, Option<Vec<Option<f64>>>);

/// Points of one place are within so many cells.
const SPREAD: f64 = 6.0;

/// Looks at every point of the surface over the duty, and closer at the worst places.
pub(crate) fn search<J: Judging>(
    judge: &J,
    facets: bool,
    solving: &mut Solving<'_>,
) -> Result<Search<J::Place>, Error> {
    let solved = judge.solved();
    let first = map_in_order(solved.points.points.len(), |point| {
        judge.at(point, Angles::Few, 1.0, None).map(|judged| (judged.margin(), judged.place, point))
    });
    let facets = facets.then(|| solved.points.painted(|point| first[point].map(|(margin, ..)| margin)));
    let spread = SPREAD * solved.edge;
    let sharp = |point: usize| solved.corners.near(&solved.points.points[point].0);
    let stands = |margin: f64, point: usize| standing(margin, &solved.points.points[point].0);
    let mut ranked: Vec<_> =
        first.into_iter().flatten().map(|(m, place, point)| (stands(m, point), place, point)).collect();
    sort_few(&mut ranked, |a, b| a.0.cmp(&b.0).then(a.2.cmp(&b.2)));
    let ranked = ranked.into_iter().map(|(_, place, point)| (place, point)).collect();
    let places = gathered(ranked, sharp, J::region, |a, b| J::alike(a, b, spread));
    let closer = map_in_order(places.len(), |k| {
        let Gathered { points, .. } = &places[k];
        let judged = points.iter().filter_map(|&point| judge.at(point, Angles::All, 1.0, None));
        judged.min_by_key(|judged| stands(judged.margin(), judged.point))
    });
    let mut judged: Vec<Judged<J::Place>> = closer.into_iter().flatten().collect();
    sort_few(&mut judged, |a, b| a.margin().total_cmp(&b.margin()));
    let windows: Vec<usize> = (0..judged.len()).collect();
    let mut seen = BTreeMap::new();
    let looked_at = |window: usize| {
        let judged: &Judged<J::Place> = &judged[windows[window]];
        format!("closer look, {}", judged.place)
    };
    for start in (0..windows.len()).step_by(workers()) {
        let round: Vec<usize> = (start..windows.len().min(start + workers())).collect();
        if !round.iter().all(|&window| solving(&looked_at(window), window, windows.len())) {
            return Err(Error::Cancelled);
        }
        let closer = map_in_order(round.len(), |n| {
            let judged = &judged[windows[round[n]]];
            // At a sharp corner finer cells find more without end.
            if sharp(judged.point) { seen_below(judge, judged) } else { seen_closer(judge, judged) }
        });
        for (window, closer) in round.into_iter().zip(closer) {
            if let Some(closer) = closer? {
                seen.insert(windows[window], closer);
            }
        }
    }
    let mut found = Vec::with_capacity(judged.len());
    for (number, judged) in judged.into_iter().enumerate() {
        let seen = seen.remove(&number);
        let finer = seen.is_some();
        let (position, normal) = solved.points.points[judged.point];
        let at_point = Closer { point: position, normal, stress: judged.stress };
        let (judged, Closer { point, normal, stress }) = seen.unwrap_or((judged, at_point));
        let principal = tensor(&stress).symmetric_eigenvalues();
        let principal = if principal.max() >= -principal.min() { principal.max() } else { principal.min() };
        let sharp = sharp(judged.point) || solved.corners.near(&point);
        let depth = (sharp && finer).then_some(CRITICAL_DISTANCE / 2.0);
        found.push(Found { judged, finer, position: point, normal, stress, principal, sharp, depth });
    }
    sort_few(&mut found, |a, b| a.judged.margin().total_cmp(&b.judged.margin()));
    Ok((found, facets))
}

/// What finer cells show of a place.
type JudgedCloser<P> = (Judged<P>, Closer);

/// Cells of the solved grid within which finer cells may find the peak of a place: further off another history of load rules,
/// as round a bore from the side that the pin pulls to the side that it presses.
const PEAK_WITHIN: f64 = 2.0;

/// A place seen with finer cells at its worst moment; its stress at all others is scaled by as much as the greatest use of
/// strength round it then.
fn seen_closer<J: Judging>(judge: &J, judged: &Judged<J::Place>) -> Result<Option<JudgedCloser<J::Place>>, FieldError> {
    let solved = judge.solved();
    let (step, angle) = judged.worst;
    let (position, _) = solved.points.points[judged.point];
    let spread = SPREAD * solved.edge;
    let state = &judge.states().steps[step][angle];
    let counts = |point: &Point3<f64>| {
        (point - position).norm() <= PEAK_WITHIN * solved.edge
            && J::alike(&judge.place(point), &judged.place, spread)
            && !solved.corners.near(point)
            && !judge.blurred(point)
    };
    let worst = |points: &[Closer]| {
        let mut best: Option<(f64, Closer)> = None;
        for seen in points.iter().filter(|seen| counts(&seen.point)) {
            let used = judge.used(judged.point, &seen.stress).utilisation;
            if best.is_none_or(|(most, _)| used > most) {
                best = Some((used, *seen));
            }
        }
        best.map(|(_, seen)| seen)
    };
    let seen = solved.closer(state, &position, worst)?;
    let points = solved.points.points.iter().enumerate();
    let round = points.filter(|(number, (point, _))| counts(point) && solved.known(*number));
    let before = round
        .map(|(number, _)| judge.used(judged.point, &combined(solved.at(number), state)).utilisation)
        .fold(judge.used(judged.point, &judged.stress).utilisation, f64::max);
    Ok(seen.filter(|_| before > 0.0).and_then(|seen| {
        let used = judge.used(judged.point, &seen.stress);
        let judged = judge.at(judged.point, Angles::All, used.utilisation / before, Some(used))?;
        Some((judged, seen))
    }))
}

/// A place at a sharp inner corner by the stress at half the critical distance below it, at its worst moment; its stress at all
/// others is scaled by as much.
fn seen_below<J: Judging>(judge: &J, judged: &Judged<J::Place>) -> Result<Option<JudgedCloser<J::Place>>, FieldError> {
    let solved = judge.solved();
    let (step, angle) = judged.worst;
    let (position, _) = solved.points.points[judged.point];
    let spread = SPREAD * solved.edge;
    let same = |corner: &&Corner| J::alike(&judge.place(&corner.point), &judged.place, spread);
    let mut corners: Vec<Corner> = solved.corners.round(&position).filter(same).copied().collect();
    if corners.is_empty() {
        // A corner between two regions is told for the other one.
        corners = solved.corners.round(&position).copied().collect();
    }
    // The nearest first; of mirror images the one that comes first in space.
    let away = |corner: &Corner| standing((corner.point - position).norm(), &corner.point);
    sort_few_by_key(&mut corners, away);
    let used = |stress: &Vector6<f64>| judge.used(judged.point, stress).utilisation;
    let worst = |points: &[Closer]| {
        let most = |best: Option<usize>, next: usize| match best {
            Some(best) if used(&points[best].stress) >= used(&points[next].stress) => Some(best),
            _ => Some(next),
        };
        (0..points.len()).fold(None, most)
    };
    let state = &judge.states().steps[step][angle];
    let seen = solved.below(state, &corners, CRITICAL_DISTANCE / 2.0, worst)?;
    let before = used(&judged.stress);
    Ok(seen.filter(|_| before > 0.0).and_then(|seen| {
        let used = judge.used(judged.point, &seen.stress);
        let judged = judge.at(judged.point, Angles::All, used.utilisation / before, Some(used))?;
        Some((judged, seen))
    }))
}
