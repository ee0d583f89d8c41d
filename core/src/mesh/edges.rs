//! Which facet lies across each edge.

/// No facet across this edge.
pub(super) const NONE: u32 = u32::MAX;

/// Half-edges of one edge: `3 * facet + k` runs from corner `k` to corner `k + 1` of the facet.
#[derive(Debug, Default)]
pub(super) struct Pairing {
    /// Half-edge across each half-edge, or [`NONE`].
    pub(super) opposite: Vec<u32>,
    /// Half-edges that found no partner running the other way.
    pub(super) boundary: Vec<u32>,
    /// Half-edges on an edge used more than once in one direction.
    pub(super) conflicting: Vec<u32>,
}

impl Pairing {
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
pub(super) fn pair(facets: &[[u32; 3]], point_count: usize) -> Pairing {
    let total = facets.len() * 3;
    let mut start = vec![0_u32; point_count + 1];
    for [a, b, c] in facets {
        for low in [a.min(b), b.min(c), c.min(a)] {
            start[*low as usize + 1] += 1;
        }
    }
    for i in 0..point_count {
        start[i + 1] += start[i];
    }
    let mut fill = start.clone();
    let mut bucketed = vec![FromLow::default(); total];
    for (facet, &[a, b, c]) in facets.iter().enumerate() {
        for (k, (from, to)) in [(a, b), (b, c), (c, a)].into_iter().enumerate() {
            let slot = &mut fill[from.min(to) as usize];
            let half_edge = (3 * facet + k) as u32;
            bucketed[*slot as usize] = FromLow { high: from.max(to), half_edge, rises: from < to };
            *slot += 1;
        }
    }
    drop(fill);

    let mut pairing = Pairing { opposite: vec![NONE; total], ..Pairing::default() };
    for low in 0..point_count {
        let bucket = &mut bucketed[start[low] as usize..start[low + 1] as usize];
        // Groups of one edge; within a group file order is kept.
        bucket.sort_unstable();
        for group in bucket.chunk_by(|a, b| a.high == b.high) {
            pair_group(group, &mut pairing);
        }
    }
    pairing
}

fn pair_group(group: &[FromLow], pairing: &mut Pairing) {
    match group {
        [first, second] if first.rises != second.rises => {
            pairing.opposite[first.half_edge as usize] = second.half_edge;
            pairing.opposite[second.half_edge as usize] = first.half_edge;
        }
        [alone] => pairing.boundary.push(alone.half_edge),
        _ => pairing.conflicting.extend(group.iter().map(|half| half.half_edge)),
    }
}
