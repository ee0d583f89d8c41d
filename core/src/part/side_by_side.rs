//! Rods drawn in pieces beside one another on the same pins, so close that all of them are one body.

use super::Bore;
use super::assembly::is_ring;
use super::rod::{GivenRod, RodEnds, ends};
use crate::mesh::{Body, Laid, Meeting, SKIN};

/// The rods that a body of several pieces is, if it is more than one.
///
/// Each has a ring of its own round either bore and pieces of its own from the one to the other: a single rod of several
/// pieces has one shank, or one ring at some end. Pieces beyond that go with the rod that they hold to.
pub(super) fn rods_of(body: &Body, whole: &RodEnds, given: &GivenRod) -> Option<Vec<Body>> {
    let pieces = body.pieces();
    let rings = |bore: &Bore| -> Vec<bool> { pieces.iter().map(|piece| is_ring(&piece.mesh, bore)).collect() };
    let (small, big) = (rings(&whole.small), rings(&whole.big));
    if [&small, &big].iter().any(|rings| rings.iter().filter(|ring| **ring).count() < 2) {
        return None;
    }
    let near = Gap::of(&pieces, &whole.small);
    let mut owner: Vec<Option<usize>> = vec![None; pieces.len()];
    let mut count = 0;
    while let Some(path) = near.path(&small, &big, |piece| owner[piece].is_none()) {
        let own: Vec<&Body> = path.iter().map(|&piece| &pieces[piece]).collect();
        let rod = Body::united(&own).is_ok_and(|found| found.len() == 1 && ends(&found[0].mesh, given).is_ok());
        if !rod {
            break;
        }
        for &piece in &path {
            owner[piece] = Some(count);
        }
        count += 1;
    }
    if count < 2 {
        return None;
    }
    near.hand_out(&mut owner);
    let mut rods = Vec::new();
    for rod in 0..count {
        let own: Vec<&Body> =
            pieces.iter().zip(&owner).filter(|(_, owner)| **owner == Some(rod)).map(|(p, _)| p).collect();
        rods.extend(Body::united(&own).ok()?);
    }
    rods.extend(pieces.iter().zip(&owner).filter(|(_, owner)| owner.is_none()).map(|(piece, _)| piece.clone()));
    Some(rods)
}

/// How far apart pieces that meet lie along the pins, m.
struct Gap {
    /// `[piece][other]`; `None` where they do not meet.
    steps: Vec<Vec<Option<f64>>>,
}

impl Gap {
    fn of(pieces: &[Body], bore: &Bore) -> Self {
        let laid: Vec<Laid<'_>> = pieces.iter().map(Laid::new).collect();
        let middle = |piece: &Body| {
            let heights = || piece.mesh.points().iter().map(|point| bore.axis.dot(&point.coords));
            f64::midpoint(heights().fold(f64::INFINITY, f64::min), heights().fold(f64::NEG_INFINITY, f64::max))
        };
        let middles: Vec<f64> = pieces.iter().map(middle).collect();
        let mut steps = vec![vec![None; pieces.len()]; pieces.len()];
        for a in 0..pieces.len() {
            for b in a + 1..pieces.len() {
                if laid[a].meets(&laid[b]) != Meeting::Apart {
                    // Of ways equally far the one of fewest pieces.
                    let step = Some((middles[a] - middles[b]).abs() + SKIN);
                    (steps[a][b], steps[b][a]) = (step, step);
                }
            }
        }
        Self { steps }
    }

    /// The way from one of the first to one of the last that changes least along the pins, by pieces that are `free`.
    fn path(&self, first: &[bool], last: &[bool], free: impl Fn(usize) -> bool) -> Option<Vec<usize>> {
        let count = self.steps.len();
        let mut far: Vec<f64> = (0..count).map(|k| if first[k] && free(k) { 0.0 } else { f64::INFINITY }).collect();
        let mut before: Vec<Option<usize>> = vec![None; count];
        let mut open = vec![true; count];
        loop {
            let nearest = |a: &usize, b: &usize| far[*a].total_cmp(&far[*b]);
            let here = (0..count).filter(|&k| open[k] && far[k] < f64::INFINITY).min_by(nearest)?;
            open[here] = false;
            if last[here] && !first[here] {
                let mut path = vec![here];
                while let Some(previous) = path.last().and_then(|&piece| before[piece]) {
                    path.push(previous);
                }
                return Some(path);
            }
            for next in (0..count).filter(|&k| free(k)) {
                let Some(step) = self.steps[here][next] else { continue };
                if far[here] + step < far[next] {
                    far[next] = far[here] + step;
                    before[next] = Some(here);
                }
            }
        }
    }

    /// Gives pieces that are nobody's to the rod they lie nearest to, one after another.
    fn hand_out(&self, owner: &mut [Option<usize>]) {
        loop {
            let owned = |k: usize| owner[k].map(|rod| (k, rod));
            let steps = (0..owner.len()).filter(|&k| owner[k].is_none()).flat_map(|k| {
                (0..owner.len()).filter_map(owned).filter_map(move |(other, rod)| Some((self.steps[k][other]?, k, rod)))
            });
            let Some((_, piece, rod)) = steps.min_by(|a, b| a.0.total_cmp(&b.0)) else { return };
            owner[piece] = Some(rod);
        }
    }
}
