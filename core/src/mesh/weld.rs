use std::collections::BTreeMap;

use super::MeshError;
use super::stl::Soup;

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
pub(super) fn weld(soup: &Soup<'_>) -> Result<Welded, MeshError> {
    let mut points: Vec<[f32; 3]> = Vec::with_capacity(soup.len() / 2 + 3);
    let mut facets = Vec::with_capacity(soup.len());
    let mut degenerate = 0;
    let mut table = vec![FREE; (soup.len() + 16).next_power_of_two()];
    for index in 0..soup.len() {
        let corners = soup.corners(index)?;
        let mut ids = [0_u32; 3];
        for (id, corner) in ids.iter_mut().zip(corners) {
            // Adding zero turns -0 into 0, so that both weld.
            let key = corner.map(|c| c + 0.0);
            if points.len() * 2 > table.len() {
                table = grown(&table, &points);
            }
            *id = find_or_insert(&mut table, &mut points, key);
        }
        if ids[0] == ids[1] || ids[1] == ids[2] || ids[2] == ids[0] {
            degenerate += 1;
        } else {
            facets.push(ids);
        }
    }
    Ok(Welded { points, facets, degenerate })
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

fn slot_of(key: [f32; 3], mask: usize) -> usize {
    let mut mixed = 0_u64;
    for coordinate in key {
        mixed = (mixed.rotate_left(5) ^ u64::from(coordinate.to_bits())).wrapping_mul(0x517c_c1b7_2722_0a95);
    }
    ((mixed >> 20) as usize) & mask
}

fn find_or_insert(table: &mut [u32], points: &mut Vec<[f32; 3]>, key: [f32; 3]) -> u32 {
    let mask = table.len() - 1;
    let mut slot = slot_of(key, mask);
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
        let mut slot = slot_of(key, mask);
        while table[slot] != FREE {
            slot = (slot + 1) & mask;
        }
        table[slot] = id as u32;
    }
    table
}
