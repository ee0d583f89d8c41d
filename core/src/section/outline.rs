use core::ops::Range;

use nalgebra::Vector2;

use super::properties::Loop;

/// Distances that differ by less than this share are the same: rounding.
const SAME: f64 = 1e-9;

/// The same outline without corners that lie on a straight side.
pub(super) fn without_straight_corners(ring: &[Vector2<f64>]) -> Loop {
    let mut kept = Loop::with_capacity(ring.len());
    let count = ring.len();
    for k in 0..count {
        let before = kept.last().copied().unwrap_or(ring[count - 1]);
        let (here, after) = (ring[k], ring[(k + 1) % count]);
        let (a, b) = (here - before, after - here);
        let bend = a.perp(&b).abs();
        if bend > 1e-6 * a.norm() * b.norm() || a.dot(&b) <= 0.0 {
            kept.push(here);
        }
    }
    if kept.len() < 3 { ring.to_vec() } else { kept }
}

/// The same outline with as few corners, but at least three, as keep it within `tolerance` of where it was, m (Ramer
/// 1972; Douglas and Peucker 1973); `None` where more than `most` would be left.
///
/// Where the ring starts makes no difference, nor does rounding: of corners equally far the first counts.
pub(crate) fn within(ring: &[Vector2<f64>], tolerance: f64, most: usize) -> Option<Loop> {
    let count = ring.len();
    let (first, last) = extremes(ring)?;
    let ring: Vec<Vector2<f64>> = ring[first..].iter().chain(&ring[..first]).copied().collect();
    let last = (last + count - first) % count;
    let distance = |k: usize, from: usize, to: usize| distance_to_segment(ring[k], ring[from], ring[to % count]);
    let farthest = |between: Range<usize>, from: usize, to: usize| {
        between
            .map(|k| (k, distance(k, from, to)))
            .fold((from, 0.0), |best, other| if other.1 > best.1 * (1.0 + SAME) { other } else { best })
    };
    let (aside, _) = farthest(0..count, 0, last);
    let mut corners = vec![0, last, aside];
    corners.sort_unstable();
    corners.dedup();
    let ends: Vec<usize> = corners[1..].iter().copied().chain([count]).collect();
    let mut open: Vec<(usize, usize)> = corners.iter().copied().zip(ends).collect();
    while let Some((from, to)) = open.pop() {
        if corners.len() > most {
            return None;
        }
        let (at, off) = farthest(from + 1..to, from, to);
        if off > tolerance {
            corners.push(at);
            open.extend([(from, at), (at, to)]);
        }
    }
    corners.sort_unstable();
    Some(corners.into_iter().map(|k| ring[k]).collect())
}

/// The corners farthest one way and the other, in a direction in which no drawn part has two alike.
fn extremes(ring: &[Vector2<f64>]) -> Option<(usize, usize)> {
    let along = |k: &usize| ring[*k].dot(&Vector2::new(0.783, 0.622));
    let by = |a: &usize, b: &usize| along(a).total_cmp(&along(b));
    Some(((0..ring.len()).min_by(by)?, (0..ring.len()).max_by(by)?))
}

fn distance_to_segment(point: Vector2<f64>, from: Vector2<f64>, to: Vector2<f64>) -> f64 {
    let (along, reach) = (to - from, point - from);
    let length = along.norm_squared();
    let share = if length > 0.0 { (reach.dot(&along) / length).clamp(0.0, 1.0) } else { 0.0 };
    (reach - along * share).norm()
}
