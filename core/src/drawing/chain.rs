use std::collections::BTreeMap;

use super::edges::{LineEnd, SeenLine};
use crate::numeric::sort_few;

type LineChain = Vec<[f64; 2]>;

/// Joins pieces that meet in a corner to long lines, each piece in one of them, straight on where there is a choice.
pub(super) fn chained<'a>(lines: impl Iterator<Item = &'a SeenLine>) -> Vec<LineChain> {
    let lines: Vec<&SeenLine> = lines.collect();
    let mut at_corner: BTreeMap<u32, Vec<usize>> = BTreeMap::new();
    for (index, line) in lines.iter().enumerate() {
        for corner in [line.from.corner, line.to.corner].into_iter().flatten() {
            at_corner.entry(corner).or_default().push(index);
        }
    }
    let mut used = vec![false; lines.len()];
    let mut chains = Vec::new();
    for first in 0..lines.len() {
        if used[first] {
            continue;
        }
        used[first] = true;
        let mut forward = vec![lines[first].from.at, lines[first].to.at];
        follow(&lines, &at_corner, &mut used, lines[first].to, &mut forward);
        let mut backward = vec![lines[first].to.at, lines[first].from.at];
        follow(&lines, &at_corner, &mut used, lines[first].from, &mut backward);
        let mut chain: LineChain = backward.drain(2..).rev().collect();
        chain.append(&mut forward);
        chains.push(chain);
    }
    chains
}

/// Goes on from the end of a chain as long as there are pieces.
fn follow(
    lines: &[&SeenLine],
    at_corner: &BTreeMap<u32, Vec<usize>>,
    used: &mut [bool],
    mut end: LineEnd,
    chain: &mut LineChain,
) {
    while let Some(corner) = end.corner {
        let [before, last] = [chain[chain.len() - 2], chain[chain.len() - 1]];
        let heading = [last[0] - before[0], last[1] - before[1]];
        let onward = |&index: &usize| {
            let far = if lines[index].from.corner == Some(corner) { lines[index].to } else { lines[index].from };
            let step = [far.at[0] - last[0], far.at[1] - last[1]];
            let length = libm::hypot(step[0], step[1]).max(f64::MIN_POSITIVE);
            ((heading[0] * step[0] + heading[1] * step[1]) / length, index, far)
        };
        let free = at_corner.get(&corner).into_iter().flatten().filter(|&&index| !used[index]);
        let Some((_, index, far)) = free.map(onward).max_by(|a, b| a.0.total_cmp(&b.0)) else { return };
        used[index] = true;
        chain.push(far.at);
        end = far;
    }
}

/// Leaves out points within a tolerance of the line through those kept (Douglas & Peucker 1973).
pub(super) fn simplified(chain: &LineChain, tolerance: f64) -> LineChain {
    let mut kept = vec![false; chain.len()];
    let mut open = vec![(0, chain.len() - 1)];
    kept[0] = true;
    kept[chain.len() - 1] = true;
    while let Some((first, last)) = open.pop() {
        let farthest = (first + 1..last)
            .map(|index| (away(chain[index], chain[first], chain[last]), index))
            .max_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((_, index)) = farthest.filter(|(distance, _)| *distance > tolerance) {
            kept[index] = true;
            open.push((first, index));
            open.push((index, last));
        }
    }
    chain.iter().zip(kept).filter(|(_, kept)| *kept).map(|(&point, _)| point).collect()
}

/// Distance of a point from a straight piece.
fn away(point: [f64; 2], from: [f64; 2], to: [f64; 2]) -> f64 {
    let along = [to[0] - from[0], to[1] - from[1]];
    let offset = [point[0] - from[0], point[1] - from[1]];
    let length = along[0] * along[0] + along[1] * along[1];
    let dot = offset[0] * along[0] + offset[1] * along[1];
    let share = if length > 0.0 { (dot / length).clamp(0.0, 1.0) } else { 0.0 };
    libm::hypot(offset[0] - share * along[0], offset[1] - share * along[1])
}

/// Leaves out the shortest lines of both kinds until no more than `most` points are left.
pub(super) fn fewest(kinds: [Vec<LineChain>; 2], most: usize) -> [Vec<LineChain>; 2] {
    let mut by_length: Vec<(f64, usize)> = kinds.iter().flatten().map(|chain| (length(chain), chain.len())).collect();
    sort_few(&mut by_length, |a, b| b.0.total_cmp(&a.0));
    let mut points = 0;
    let shortest = by_length.iter().find(|(_, count)| {
        points += count;
        points > most
    });
    match shortest {
        Some(&(shortest, _)) => kinds.map(|chains| chains.into_iter().filter(|c| length(c) > shortest).collect()),
        None => kinds,
    }
}

fn length(chain: &LineChain) -> f64 {
    chain.windows(2).map(|pair| libm::hypot(pair[1][0] - pair[0][0], pair[1][1] - pair[0][1])).sum()
}
