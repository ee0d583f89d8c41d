//! Solids that touch face on face and share the edges round those faces.

use std::collections::BTreeMap;

use nalgebra::{Point3, Vector3};

use super::edges::{Pairing, ends};
use crate::numeric::sort_few;

/// Faces whose planes open by less than this, radians, lie on each other: rounding of 32-bit coordinates turns the smallest
/// facets of a drawn part by less, and no gap between printed faces is a wedge as sharp.
const SHUT: f64 = 0.01;

/// Parts solids at edges where more than two facets meet: each solid's own two facets belong together, as its material
/// fills the angle between them.
///
/// Only where facets of two solids lie on each other. Solids that meet along an edge alone are left as they are: whether
/// they hang together there nobody can tell.
pub(super) fn part(facets: &[[u32; 3]], point: &dyn Fn(u32) -> Point3<f64>, pairing: &mut Pairing) {
    let mut edges: BTreeMap<(u32, u32), Vec<u32>> = BTreeMap::new();
    for &half_edge in &pairing.conflicting {
        let (from, to) = ends(facets, half_edge);
        edges.entry((from.min(to), from.max(to))).or_default().push(half_edge);
    }
    let parted: Vec<(Option<Round>, Vec<u32>)> =
        edges.into_iter().map(|(ends, around)| (solids_round(facets, point, ends, &around), around)).collect();
    // Where nothing opens to the outside at any edge, the surface is there twice, not that of two solids.
    if !parted.iter().any(|(round, _)| round.as_ref().is_some_and(|round| round.open)) {
        return;
    }
    pairing.conflicting.clear();
    for (round, around) in parted {
        let Some(round) = round else {
            pairing.conflicting.extend(around);
            continue;
        };
        for (first, second) in round.solids {
            pairing.opposite[first as usize] = second;
            pairing.opposite[second as usize] = first;
        }
    }
}

/// What meets in an edge.
struct Round {
    /// The half-edges of each solid.
    solids: Vec<(u32, u32)>,
    /// Whether there is room between some of them.
    open: bool,
}

/// A facet seen along an edge.
struct Leaf {
    half_edge: u32,
    /// Round the edge from the first facet, radians.
    angle: f64,
    /// Whether material begins at it, going round.
    opens: bool,
}

/// The solids round an edge; `None` where that is not plain.
fn solids_round(
    facets: &[[u32; 3]],
    point: &dyn Fn(u32) -> Point3<f64>,
    (low, high): (u32, u32),
    around: &[u32],
) -> Option<Round> {
    let start = point(low);
    let along = (point(high) - start).try_normalize(0.0)?;
    let away = |half_edge: u32| -> Option<Vector3<f64>> {
        let apex = facets[half_edge as usize / 3][(half_edge as usize % 3 + 2) % 3];
        let arm = point(apex) - start;
        (arm - along * along.dot(&arm)).try_normalize(0.0)
    };
    let first = away(*around.first()?)?;
    let square = along.cross(&first);
    let mut leaves = around
        .iter()
        .map(|&half_edge| {
            let arm = away(half_edge)?;
            let angle = libm::atan2(square.dot(&arm), first.dot(&arm));
            // A facet that runs the edge backward has its outside before it and its material after it, going round.
            Some(Leaf { half_edge, angle, opens: ends(facets, half_edge).0 == high })
        })
        .collect::<Option<Vec<Leaf>>>()?;
    sort_few(&mut leaves, |a, b| a.angle.total_cmp(&b.angle));
    settle(&mut leaves);
    let (mut solids, mut touching, mut open) = (Vec::new(), false, false);
    let count = leaves.len();
    // Going round, material that began at one facet must end at the next.
    let begin = leaves.iter().position(|leaf| leaf.opens)?;
    for k in (0..count).step_by(2) {
        let [from, to, next] = [k, k + 1, k + 2].map(|step| &leaves[(begin + step) % count]);
        if !from.opens || to.opens {
            return None;
        }
        solids.push((from.half_edge, to.half_edge));
        let shut = gap(to, next) < SHUT;
        touching |= shut;
        open |= !shut;
    }
    (touching && count.is_multiple_of(2)).then_some(Round { solids, open })
}

/// Angle between two facets, whichever way round.
fn gap(from: &Leaf, to: &Leaf) -> f64 {
    use core::f64::consts::TAU;
    let turn = (to.angle - from.angle).rem_euclid(TAU);
    turn.min(TAU - turn)
}

/// Where two facets lie on each other, the one at which material ends comes first: between solids that touch there is no
/// material of both.
fn settle(leaves: &mut [Leaf]) {
    let count = leaves.len();
    for k in 0..count {
        let next = (k + 1) % count;
        let [here, there] = [&leaves[k], &leaves[next]];
        if here.opens && !there.opens && gap(here, there) < SHUT {
            leaves.swap(k, next);
        }
    }
}
