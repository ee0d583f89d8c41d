use std::ops::Range;

use super::error::MeshError;
use super::stl::Soup;
use crate::numeric::{map_in_order, workers};

/// Corners joined where their coordinates are equal to the bit.
#[derive(Default)]
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
/// Blocks of the file are welded by themselves, then the corners of each block are looked up among those of the blocks
/// before it: points come in order of first use, however many blocks there are.
pub(super) fn weld(soup: &Soup<'_>) -> Result<Welded, MeshError> {
    let blocks = workers().min(MOST_BLOCKS);
    let range = |block: usize| soup.len() * block / blocks..soup.len() * (block + 1) / blocks;
    let mut welded = map_in_order(blocks, |block| Block::of(soup, range(block))).into_iter();
    let Some(first) = welded.next() else { return Ok(Welded::default()) };
    let Block { mut corners, ids } = first?;
    let mut merged = vec![(ids, None)];
    for block in welded {
        let Block { corners: own, ids } = block?;
        let numbers: Vec<u32> = own.points.iter().map(|&key| corners.number(key, hash(key))).collect();
        merged.push((ids, Some(numbers)));
    }
    let facets = map_in_order(merged.len(), |block| {
        let (ids, numbers) = &merged[block];
        joined(ids, |id| numbers.as_ref().map_or(id, |numbers| numbers[id as usize]))
    });
    let facets = facets.concat();
    let degenerate = soup.len() - facets.len();
    Ok(Welded { points: corners.points, facets, degenerate })
}

/// More blocks would only be looked up in each other for longer.
const MOST_BLOCKS: usize = 8;

/// Distinct corners, numbered in order of first use.
struct Corners {
    points: Vec<[f32; 3]>,
    /// Numbers by hash, open addressing.
    table: Vec<u32>,
}

impl Corners {
    fn expecting(count: usize) -> Self {
        Self { points: Vec::with_capacity(count), table: vec![FREE; (2 * count + 16).next_power_of_two()] }
    }

    /// Number of a corner, a new one if it was not met before.
    fn number(&mut self, key: [f32; 3], hash: u64) -> u32 {
        if self.points.len() * 2 > self.table.len() {
            self.table = grown(&self.table, &self.points);
        }
        find_or_insert(&mut self.table, &mut self.points, key, hash)
    }
}

/// A stretch of the file welded by itself.
struct Block {
    corners: Corners,
    /// Corner numbers of its facets, in file order.
    ids: Vec<[u32; 3]>,
}

/// Corners remembered from just before: in most files neighbouring facets follow each other.
const RECENT: usize = 1024;

impl Block {
    fn of(soup: &Soup<'_>, facets: Range<usize>) -> Result<Self, MeshError> {
        // A closed surface has half as many corners as facets.
        let mut corners = Corners::expecting(facets.len() / 2 + 3);
        let mut ids = Vec::with_capacity(facets.len());
        let mut recent = vec![([f32::NAN; 3], FREE); RECENT];
        for facet in facets {
            ids.push(soup.corners(facet)?.map(|corner| {
                let key = key(corner);
                let hash = hash(key);
                let known = &mut recent[hash as usize % RECENT];
                if known.0 != key {
                    *known = (key, corners.number(key, hash));
                }
                known.1
            }));
        }
        Ok(Self { corners, ids })
    }
}

/// Facets with three different corners, with the numbers that they have in the end.
fn joined(ids: &[[u32; 3]], number: impl Fn(u32) -> u32) -> Vec<[u32; 3]> {
    ids.iter().map(|facet| facet.map(&number)).filter(|[a, b, c]| a != b && b != c && c != a).collect()
}

/// Joins each corner of `loose` to the first of them within `reach` along every axis; it mends files whose corners
/// differ in the last digits.
pub(super) fn join_near(welded: &Welded, loose: &[u32], reach: f32) -> Welded {
    let mut stands_for: Vec<u32> = (0..welded.points.len() as u32).collect();
    let mut kept = Cells::expecting(loose.len(), reach);
    for &id in loose {
        let corner = welded.points[id as usize];
        match kept.near(&welded.points, corner) {
            Some(other) => stands_for[id as usize] = other,
            None => kept.insert(id, corner),
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

/// Corners by the cell they lie in, with open addressing: a map of lists would take ten times the room of the corners.
struct Cells {
    reach: f32,
    slots: Vec<u32>,
}

impl Cells {
    fn expecting(count: usize, reach: f32) -> Self {
        Self { reach, slots: vec![FREE; (2 * count + 16).next_power_of_two()] }
    }

    /// Cells are twice as wide as the reach, so what is near lies in one of at most two along every axis.
    fn cell(&self, coordinate: f64) -> i64 {
        (coordinate / (2.0 * f64::from(self.reach))).floor() as i64
    }

    /// Slots from the first of a cell to the next free one.
    fn run(&self, cell: [i64; 3]) -> impl Iterator<Item = usize> + use<> {
        let mask = self.slots.len() - 1;
        let mut mixed = 0_u64;
        for coordinate in cell {
            mixed = (mixed.rotate_left(5) ^ coordinate as u64).wrapping_mul(0x517c_c1b7_2722_0a95);
        }
        let first = (mixed >> 20) as usize;
        (0..=mask).map(move |step| first.wrapping_add(step) & mask)
    }

    fn insert(&mut self, id: u32, corner: [f32; 3]) {
        let cell = corner.map(|c| self.cell(f64::from(c)));
        if let Some(slot) = self.run(cell).find(|&slot| self.slots[slot] == FREE) {
            self.slots[slot] = id;
        }
    }

    /// The first corner within reach along every axis.
    fn near(&self, points: &[[f32; 3]], corner: [f32; 3]) -> Option<u32> {
        let close = |other: u32| {
            let point = points[other as usize];
            (0..3).all(|axis| (point[axis] - corner[axis]).abs() <= self.reach)
        };
        let reach = f64::from(self.reach);
        let around = corner.map(|c| self.cell(f64::from(c) - reach)..=self.cell(f64::from(c) + reach));
        let mut first = None;
        for x in around[0].clone() {
            for y in around[1].clone() {
                for z in around[2].clone() {
                    let met = self.run([x, y, z]).map(|slot| self.slots[slot]).take_while(|&id| id != FREE);
                    first = met.filter(|&id| close(id)).chain(first).min();
                }
            }
        }
        first
    }
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
