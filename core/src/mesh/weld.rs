use std::collections::BTreeMap;

use super::MeshError;
use super::stl::Soup;
use crate::threads::{map_in_order, workers};

/// Corners joined where their coordinates are equal to the bit.
pub(super) struct Welded {
    /// Distinct corners in order of first use, in file units.
    pub(super) points: Vec<[f32; 3]>,
    /// Corner numbers of each kept facet.
    pub(super) facets: Vec<[u32; 3]>,
    /// Facets left out because two of their corners coincide.
    pub(super) degenerate: usize,
}

const FREE: u32 = u32::MAX;

/// Joins equal corners and drops facets that collapse to a line or a point by it.
///
/// Corners are shared out by their hash: each share is welded by itself, then the shares' numbers are merged into one
/// sequence by first use, which is the same for any number of shares.
pub(super) fn weld(soup: &Soup<'_>) -> Result<Welded, MeshError> {
    let shares = workers().min(MOST_SHARES) as u64;
    let mut welded: Vec<Share> = map_in_order(shares as usize, |share| Share::of(soup, share as u64, shares))
        .into_iter()
        .collect::<Result<_, _>>()?;
    if let [alone] = welded.as_mut_slice() {
        return Ok(joined(soup.len(), core::mem::take(&mut alone.points), alone.ids.iter().copied()));
    }
    let (points, numbers) = merged(&welded);
    let mut next: Vec<_> = welded.iter().map(|share| share.ids.iter()).collect();
    let ids = (0..soup.len()).flat_map(|facet| soup.corners(facet).unwrap_or_default()).map(|corner| {
        let share = share_of(hash(key(corner)), shares) as usize;
        next[share].next().map_or(FREE, |&local| numbers[share][local as usize])
    });
    Ok(joined(soup.len(), points, ids))
}

/// More shares would only read the file more often.
const MOST_SHARES: usize = 8;

/// The corners whose hash falls to one worker.
struct Share {
    /// Distinct corners in order of first use.
    points: Vec<[f32; 3]>,
    /// Place of that first use in the file, counted in corners.
    first_use: Vec<u32>,
    /// Number in `points` for each corner of the file that falls to this share, in file order.
    ids: Vec<u32>,
}

/// Corners remembered from just before: in most files neighbouring facets follow each other.
const RECENT: usize = 1024;

impl Share {
    fn of(soup: &Soup<'_>, share: u64, shares: u64) -> Result<Self, MeshError> {
        let expected = soup.len() / shares as usize;
        let mut found = Self {
            points: Vec::with_capacity(expected / 2 + 3),
            first_use: Vec::with_capacity(expected / 2 + 3),
            ids: Vec::with_capacity(3 * expected),
        };
        let mut table = vec![FREE; (expected + 16).next_power_of_two()];
        let mut recent = vec![([f32::NAN; 3], FREE); RECENT];
        for facet in 0..soup.len() {
            for (k, corner) in soup.corners(facet)?.into_iter().enumerate() {
                let key = key(corner);
                let hash = hash(key);
                if share_of(hash, shares) != share {
                    continue;
                }
                let known = &mut recent[hash as usize % RECENT];
                if known.0 != key {
                    if found.points.len() * 2 > table.len() {
                        table = grown(&table, &found.points);
                    }
                    let before = found.points.len();
                    *known = (key, find_or_insert(&mut table, &mut found.points, key, hash));
                    if found.points.len() > before {
                        found.first_use.push((3 * facet + k) as u32);
                    }
                }
                found.ids.push(known.1);
            }
        }
        Ok(found)
    }
}

/// All points of the shares in order of first use, and for each share the new numbers of its points.
fn merged(shares: &[Share]) -> (Vec<[f32; 3]>, Vec<Vec<u32>>) {
    let count = shares.iter().map(|share| share.points.len()).sum();
    let mut points = Vec::with_capacity(count);
    let mut numbers: Vec<Vec<u32>> = shares.iter().map(|share| Vec::with_capacity(share.points.len())).collect();
    for _ in 0..count {
        let first = |share: &usize| shares[*share].first_use.get(numbers[*share].len()).copied().unwrap_or(FREE);
        let Some(share) = (0..shares.len()).min_by_key(first) else { break };
        points.push(shares[share].points[numbers[share].len()]);
        numbers[share].push(points.len() as u32 - 1);
    }
    (points, numbers)
}

/// Facets from the point numbers of their corners.
fn joined(count: usize, points: Vec<[f32; 3]>, mut ids: impl Iterator<Item = u32>) -> Welded {
    let mut welded = Welded { points, facets: Vec::with_capacity(count), degenerate: 0 };
    while let (Some(a), Some(b), Some(c)) = (ids.next(), ids.next(), ids.next()) {
        if a == b || b == c || c == a {
            welded.degenerate += 1;
        } else {
            welded.facets.push([a, b, c]);
        }
    }
    welded
}

/// Joins each corner of `loose` to an earlier one of them within `reach` along every axis; it mends files whose corners
/// differ in the last digits.
pub(super) fn join_near(welded: &Welded, loose: &[u32], reach: f32) -> Welded {
    let mut stands_for: Vec<u32> = (0..welded.points.len() as u32).collect();
    // Cells are as wide as the reach, so what is near lies in the same cell or beside it.
    let mut cells: BTreeMap<[i64; 3], Vec<u32>> = BTreeMap::new();
    for &id in loose {
        let corner = welded.points[id as usize];
        let cell = corner.map(|c| (f64::from(c) / f64::from(reach)).floor() as i64);
        let close = |other: u32| {
            let point = welded.points[other as usize];
            (0..3).all(|axis| (point[axis] - corner[axis]).abs() <= reach)
        };
        let around = (0..27).map(|k: i64| [k / 9 - 1, k / 3 % 3 - 1, k % 3 - 1]);
        let found = around
            .filter_map(|step| cells.get(&[0, 1, 2].map(|axis| cell[axis].saturating_add(step[axis]))))
            .flatten()
            .copied()
            .find(|&other| close(other));
        match found {
            Some(other) => stands_for[id as usize] = other,
            None => cells.entry(cell).or_default().push(id),
        }
    }
    let mut renumbered = vec![FREE; welded.points.len()];
    let mut joined = Welded { points: Vec::new(), facets: Vec::new(), degenerate: welded.degenerate };
    for facet in &welded.facets {
        let ids = facet.map(|id| stands_for[id as usize]);
        if ids[0] == ids[1] || ids[1] == ids[2] || ids[2] == ids[0] {
            joined.degenerate += 1;
            continue;
        }
        joined.facets.push(ids.map(|id| {
            let fresh = &mut renumbered[id as usize];
            if *fresh == FREE {
                *fresh = joined.points.len() as u32;
                joined.points.push(welded.points[id as usize]);
            }
            *fresh
        }));
    }
    joined
}

/// Adding zero turns -0 into 0, so that both weld.
fn key(corner: [f32; 3]) -> [f32; 3] {
    corner.map(|c| c + 0.0)
}

fn hash(key: [f32; 3]) -> u64 {
    let mut mixed = 0_u64;
    for coordinate in key {
        mixed = (mixed.rotate_left(5) ^ u64::from(coordinate.to_bits())).wrapping_mul(0x517c_c1b7_2722_0a95);
    }
    mixed >> 20
}

/// Share that a hash falls to; by its upper bits, as the lower ones find the slot in the table.
fn share_of(hash: u64, shares: u64) -> u64 {
    (hash >> 34) % shares
}

fn find_or_insert(table: &mut [u32], points: &mut Vec<[f32; 3]>, key: [f32; 3], hash: u64) -> u32 {
    let mask = table.len() - 1;
    let mut slot = hash as usize & mask;
    loop {
        let id = table[slot];
        if id == FREE {
            let fresh = points.len() as u32;
            table[slot] = fresh;
            points.push(key);
            return fresh;
        }
        if points[id as usize] == key {
            return id;
        }
        slot = (slot + 1) & mask;
    }
}

fn grown(old: &[u32], points: &[[f32; 3]]) -> Vec<u32> {
    let mut table = vec![FREE; old.len() * 2];
    let mask = table.len() - 1;
    for (id, &key) in points.iter().enumerate() {
        let mut slot = hash(key) as usize & mask;
        while table[slot] != FREE {
            slot = (slot + 1) & mask;
        }
        table[slot] = id as u32;
    }
    table
}
