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

/// Pairs half-edges of opposite direction, bucketed by the lower corner number: linear time, no hashing.
///
/// Where more than two half-edges meet they are reported as conflicting: which of them belong together would be a guess.
pub(super) fn pair(facets: &[[u32; 3]], point_count: usize) -> Pairing {
    let total = facets.len() * 3;
    let mut start = vec![0_u32; point_count + 1];
    for half_edge in 0..total as u32 {
        let (a, b) = ends(facets, half_edge);
        start[a.min(b) as usize + 1] += 1;
    }
    for i in 0..point_count {
        start[i + 1] += start[i];
    }
    let mut fill = start.clone();
    let mut bucketed = vec![0_u32; total];
    for half_edge in 0..total as u32 {
        let (a, b) = ends(facets, half_edge);
        let slot = &mut fill[a.min(b) as usize];
        bucketed[*slot as usize] = half_edge;
        *slot += 1;
    }
    drop(fill);

    let mut pairing = Pairing { opposite: vec![NONE; total], ..Pairing::default() };
    for low in 0..point_count {
        let bucket = &mut bucketed[start[low] as usize..start[low + 1] as usize];
        // Groups of one edge; within a group file order is kept, because the key ends with the half-edge itself.
        bucket.sort_unstable_by_key(|&h| {
            let (a, b) = ends(facets, h);
            (a.max(b), h)
        });
        for group in bucket.chunk_by(|&g, &h| {
            let ((a, b), (c, d)) = (ends(facets, g), ends(facets, h));
            a.max(b) == c.max(d)
        }) {
            pair_group(facets, group, &mut pairing);
        }
    }
    pairing
}

fn pair_group(facets: &[[u32; 3]], group: &[u32], pairing: &mut Pairing) {
    let rises = |h: &u32| {
        let (a, b) = ends(facets, *h);
        a < b
    };
    if let [first, second] = group
        && rises(first) != rises(second)
    {
        pairing.opposite[*first as usize] = *second;
        pairing.opposite[*second as usize] = *first;
        return;
    }
    match group {
        [alone] => pairing.boundary.push(*alone),
        _ => pairing.conflicting.extend_from_slice(group),
    }
}
