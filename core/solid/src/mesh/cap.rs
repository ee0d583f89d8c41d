use nalgebra::Point3;

use super::edges::ends;

/// Holes with at most this many edges are capped.
const EDGE_LIMIT: usize = 12;

/// Holes with a rim up to this share of the box diagonal are capped.
const RIM_SHARE: f64 = 0.4;

/// Facets that close the holes bounded by `boundary`, or `None` when a hole is too large to guess its surface.
pub(super) fn caps(
    facets: &[[u32; 3]],
    boundary: &[u32],
    points: &[Point3<f64>],
    diagonal: f64,
) -> Option<(usize, Vec<[u32; 3]>)> {
    // The rim runs against its boundary half-edges.
    let mut rim: Vec<(u32, u32)> = boundary
        .iter()
        .map(|&half_edge| {
            let (a, b) = ends(facets, half_edge);
            (b, a)
        })
        .collect();
    rim.sort_unstable();
    if rim.windows(2).any(|pair| pair[0].0 == pair[1].0) {
        return None;
    }
    let mut used = vec![false; rim.len()];
    let mut caps = Vec::new();
    let mut holes = 0;
    for first in 0..rim.len() {
        if used[first] {
            continue;
        }
        let mut hole = Vec::new();
        let mut length = 0.0;
        let mut at = first;
        loop {
            used[at] = true;
            let (from, to) = rim[at];
            hole.push(from);
            length += (points[to as usize] - points[from as usize]).norm();
            if hole.len() > EDGE_LIMIT || length > RIM_SHARE * diagonal {
                return None;
            }
            if to == rim[first].0 {
                break;
            }
            at = rim.binary_search_by_key(&to, |edge| edge.0).ok()?;
            if used[at] {
                return None;
            }
        }
        caps.extend((1..hole.len() - 1).map(|k| [hole[0], hole[k], hole[k + 1]]));
        holes += 1;
    }
    Some((holes, caps))
}
