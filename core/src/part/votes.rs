use std::collections::BTreeMap;

use nalgebra::Vector2;

use super::view::Strip;

/// Rays that vote for centres.
const RAYS: usize = 3_000;

/// Cells along the longer side of the map of centres.
const CELLS: usize = 200;

/// Votes of picked walls for the points that their normals pass, counted in square cells.
pub(super) struct Votes {
    low: Vector2<f64>,
    pub(super) cell: f64,
    columns: usize,
    rows: usize,
    counts: Vec<u32>,
    /// How often each wall was picked.
    ballots: BTreeMap<usize, u32>,
}

impl Votes {
    /// Of walls picked, each time they were; `None` where they have no extent.
    pub(super) fn of(walls: &[Strip], picked: &[usize]) -> Option<Self> {
        let start = (Vector2::from([f64::INFINITY; 2]), Vector2::from([f64::NEG_INFINITY; 2]));
        let (low, high) =
            picked.iter().map(|&w| &walls[w].middle).fold(start, |(low, high), p| (low.inf(p), high.sup(p)));
        let size = (high - low).max();
        if !(size > 0.0 && size.is_finite()) {
            return None;
        }
        let cell = size / CELLS as f64;
        let columns = ((high.x - low.x) / cell) as usize + 1;
        let rows = ((high.y - low.y) / cell) as usize + 1;
        let mut ballots = BTreeMap::new();
        for &wall in picked {
            *ballots.entry(wall).or_insert(0) += 1;
        }
        let counts = vec![0; columns * rows];
        let mut votes = Self { low, cell, columns, rows, counts, ballots: BTreeMap::new() };
        for (&wall, &times) in &ballots {
            votes.each_cell(&walls[wall], |count| *count += times);
        }
        Some(Self { ballots, ..votes })
    }

    /// Takes back the votes of a wall.
    pub(super) fn withdraw(&mut self, number: usize, wall: &Strip) {
        if let Some(times) = self.ballots.remove(&number) {
            self.each_cell(wall, |count| *count -= times);
        }
    }

    /// The cells that the normal of a wall passes.
    fn each_cell(&mut self, wall: &Strip, change: impl Fn(&mut u32)) {
        let mut last = usize::MAX;
        for step in 1..CELLS / 2 {
            let at = (wall.middle + wall.normal * (step as f64 * self.cell) - self.low) / self.cell;
            if at.x < 0.0 || at.y < 0.0 || at.x as usize >= self.columns || at.y as usize >= self.rows {
                break;
            }
            let index = at.y as usize * self.columns + at.x as usize;
            if index != last {
                last = index;
                change(&mut self.counts[index]);
            }
        }
    }

    /// Most votes that two by two cells have together, and the point between those.
    pub(super) fn most(&self) -> (u32, Vector2<f64>) {
        let pair = |column: usize, row: usize| {
            let at = row * self.columns + column;
            self.counts[at] + self.counts[at + 1]
        };
        let mut best = (0, Vector2::zeros());
        for row in 0..self.rows.saturating_sub(1) {
            for column in 0..self.columns - 1 {
                let sum = pair(column, row) + pair(column, row + 1);
                if sum > best.0 {
                    best = (sum, self.low + Vector2::new(column as f64 + 1.0, row as f64 + 1.0) * self.cell);
                }
            }
        }
        best
    }
}

/// Indices of walls met by walking along their summed area in equal strides; large walls come several times.
pub(super) fn picked(walls: &[Strip]) -> Vec<usize> {
    let total: f64 = walls.iter().map(|wall| wall.area).sum();
    let stride = total / RAYS as f64;
    let mut picked = Vec::with_capacity(RAYS);
    let (mut walked, mut next) = (0.0, stride / 2.0);
    for (index, wall) in walls.iter().enumerate() {
        walked += wall.area;
        while walked > next && picked.len() < RAYS {
            picked.push(index);
            next += stride;
        }
    }
    picked
}
