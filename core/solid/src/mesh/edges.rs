//! Which facet lies across each edge.

use std::ops::Range;

use crate::numeric::{map_in_order, workers};

/// No facet across this edge.
pub(super) const NONE: u32 = u32::MAX;

/// Half-edges of one edge: `3 * facet + k` runs from corner `k` to corner `k + 1` of the facet.
#[derive(Debug, Default)]
pub(super) struct Pairing {
    /// Half-edge across each half-edge, or [`NONE`].
    pub(super) opposite: Vec<u32>,
    /// Half-edges that found no partner running the other way.
    pub(super) boundary: Vec<u32>,
    /// Half-edges on an edge of more than two facets.
    pub(super) conflicting: Vec<u32>,
    /// Two half-edges that run their edge the same way: one of the facets is the wrong way round.
    pub(super) alike: Vec<(u32, u32)>,
}

impl Pairing {
    /// Edges that are not one of two facets which run it opposite ways.
    pub(super) fn faults(&self) -> usize {
        self.boundary.len() + self.conflicting.len() + self.alike.len()
    }

    /// Corners of the half-edges without a partner, in rising order.
    pub(super) fn loose_corners(&self, facets: &[[u32; 3]]) -> Vec<u32> {
        let loose = self.boundary.iter().chain(&self.conflicting);
        let mut corners: Vec<u32> = loose.map(|&h| ends(facets, h)).flat_map(|(a, b)| [a, b]).collect();
        corners.sort_unstable();
        corners.dedup();
        corners
    }
}

/// End points of a half-edge.
pub(super) fn ends(facets: &[[u32; 3]], half_edge: u32) -> (u32, u32) {
    let facet = facets[half_edge as usize / 3];
    let k = half_edge as usize % 3;
    (facet[k], facet[(k + 1) % 3])
}

/// A half-edge seen from the lower of its corners.
#[derive(Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
struct FromLow {
    /// The higher corner.
    high: u32,
    half_edge: u32,
    /// Whether it runs from the lower corner to the higher.
    rises: bool,
}

/// Pairs half-edges of opposite direction, bucketed by the lower corner number: linear time, no hashing.
///
/// Where more than two half-edges meet they are reported as conflicting: which of them belong together would be a guess.
/// Two that run the same way are told apart from those.
/// Each worker looks after a stretch of corner numbers; the stretches come one after another in what is found.
pub(super) fn pair(facets: &[[u32; 3]], point_count: usize) -> Pairing {
    let stretches = workers().min(MOST_STRETCHES);
    let end = |stretch: usize| (point_count as u64 * stretch as u64 / stretches as u64) as u32;
    let found = map_in_order(stretches, |stretch| Stretch::of(facets, end(stretch)..end(stretch + 1)));
    let mut pairing = Pairing { opposite: vec![NONE; facets.len() * 3], ..Pairing::default() };
    for Stretch { pairs, boundary, conflicting, alike } in found {
        for (first, second) in pairs {
            pairing.opposite[first as usize] = second;
            pairing.opposite[second as usize] = first;
        }
        pairing.boundary.extend(boundary);
        pairing.conflicting.extend(conflicting);
        pairing.alike.extend(alike);
    }
    pairing
}

/// Every worker reads all facets: more of them would do little else.
const MOST_STRETCHES: usize = 4;

/// What was found among the edges whose lower corner number lies in one stretch.
#[derive(Default)]
struct Stretch {
    pairs: Vec<(u32, u32)>,
    boundary: Vec<u32>,
    conflicting: Vec<u32>,
    alike: Vec<(u32, u32)>,
}

impl Stretch {
    fn of(facets: &[[u32; 3]], corners: Range<u32>) -> Self {
        let mut start = vec![0_u32; corners.len() + 1];
        let own = |low: u32| corners.contains(&low).then(|| (low - corners.start) as usize);
        for [a, b, c] in facets {
            for low in [a.min(b), b.min(c), c.min(a)] {
                if let Some(slot) = own(*low) {
                    start[slot + 1] += 1;
                }
            }
        }
        for i in 0..corners.len() {
            start[i + 1] += start[i];
        }
        let mut fill = start.clone();
        let mut bucketed = vec![FromLow::default(); start.last().copied().unwrap_or(0) as usize];
        for (facet, &[a, b, c]) in facets.iter().enumerate() {
            for (k, (from, to)) in [(a, b), (b, c), (c, a)].into_iter().enumerate() {
                if let Some(slot) = own(from.min(to)) {
                    let slot = &mut fill[slot];
                    let half_edge = (3 * facet + k) as u32;
                    bucketed[*slot as usize] = FromLow { high: from.max(to), half_edge, rises: from < to };
                    *slot += 1;
                }
            }
        }
        drop(fill);
        let mut found = Self { pairs: Vec::with_capacity(bucketed.len() / 2), ..Self::default() };
        for low in 0..corners.len() {
            let bucket = &mut bucketed[start[low] as usize..start[low + 1] as usize];
            // Groups of one edge; within a group file order is kept.
            bucket.sort_unstable();
            for group in bucket.chunk_by(|a, b| a.high == b.high) {
                found.add(group);
            }
        }
        found
    }

    fn add(&mut self, group: &[FromLow]) {
        match group {
            [first, second] if first.rises != second.rises => self.pairs.push((first.half_edge, second.half_edge)),
            [first, second] => self.alike.push((first.half_edge, second.half_edge)),
            [alone] => self.boundary.push(alone.half_edge),
            _ => self.conflicting.extend(group.iter().map(|half| half.half_edge)),
        }
    }
}
