// Longer than other files: one walk from facets to cells, whose steps share their buffers.
use std::ops::Range;

use nalgebra::{Point3, Vector3};

use super::clip::Polygon;
use super::error::FieldError;
use super::grid::Grid;
use super::moments::{Moments, Swept, WANTED, WHOLE};
use crate::field::clip;
use crate::mesh::Mesh;
use crate::numeric::map_in_order;

/// What a cell holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Content<'a> {
    Empty,
    Whole,
    Cut(&'a Moments),
}

/// A part as cells: whole ones, and cut ones with the exact integrals over what they hold.
#[derive(Debug, Clone)]
pub struct Voxels {
    grid: Grid,
    /// Whether the grid is a window out of a larger one: the surface goes on beyond it.
    window: bool,
    /// For each cell of the box, `EMPTY`, `WHOLE`, or its number in `cut`.
    content: Vec<u32>,
    cut: Vec<Moments>,
    /// Cells that are not empty.
    filled: usize,
    /// Cells where shells overlap, integrated along sampled lines.
    sampled: usize,
}

const EMPTY: u32 = u32::MAX;
const WHOLE_CELL: u32 = u32::MAX - 1;

/// A share of a cell that counts as nothing: well above the rounding of sums over pieces, far below any effect.
const NOTHING: f64 = 1e-8;

/// Sampled lines across a cell, each way, where shells overlap. The error is that of a midpoint rule with such strips:
/// at most half a strip of wall thickness, a sixteenth of a cell.
const LINES: usize = 8;

/// One layer of cells in `z`.
struct CellLayer {
    content: Vec<u32>,
    cut: Vec<Moments>,
    sampled: usize,
}

impl Voxels {
    /// Divides the solid bounded by `mesh` by `grid`.
    ///
    /// Where shells overlap their union counts.
    pub fn new(mesh: &Mesh, grid: Grid) -> Result<Self, FieldError> {
        let whole = grid.counts.map(|count| 0..count);
        Self { window: false, ..Self::part_of(mesh, &grid, &whole) }.checked()
    }

    /// The cells `window` out of a grid that fills the box round the mesh.
    pub(super) fn window(mesh: &Mesh, grid: &Grid, window: &[Range<usize>; 3]) -> Result<Self, FieldError> {
        Self::part_of(mesh, grid, window).checked()
    }

    fn checked(self) -> Result<Self, FieldError> {
        if self.filled == 0 { Err(FieldError::NoVolume) } else { Ok(self) }
    }

    fn part_of(mesh: &Mesh, grid: &Grid, window: &[Range<usize>; 3]) -> Self {
        let facets: Vec<[Vector3<f64>; 3]> =
            (0..mesh.facets().len()).map(|f| mesh.corners(f).map(|point| grid.in_cells(&point))).collect();
        let by_layer = facets_by_layer(&facets, grid.counts[2]);
        let shell_of = shell_numbers(mesh);
        let start = window[2].start;
        let layers = map_in_order(window[2].len(), |k| {
            layer(&facets, &by_layer[start + k], &shell_of, grid.counts, window, start + k)
        });
        let low = Vector3::from_fn(|axis, _| window[axis].start as f64);
        let counts = window.each_ref().map(ExactSizeIterator::len);
        let own = Grid { origin: grid.in_metres(&low), cell: grid.cell, counts };
        let mut voxels = Self {
            grid: own,
            window: true,
            content: Vec::with_capacity(own.len()),
            cut: Vec::new(),
            filled: 0,
            sampled: 0,
        };
        for layer in layers {
            let base = voxels.cut.len() as u32;
            voxels.content.extend(layer.content.iter().map(|&code| if code < WHOLE_CELL { code + base } else { code }));
            voxels.cut.extend(layer.cut);
            voxels.sampled += layer.sampled;
        }
        voxels.filled = voxels.content.iter().filter(|&&code| code != EMPTY).count();
        voxels
    }

    /// Whether the surface goes on beyond the grid.
    pub(super) fn is_window(&self) -> bool {
        self.window
    }

    /// The grid it was divided by.
    pub fn grid(&self) -> &Grid {
        &self.grid
    }

    /// Cells that hold material.
    pub fn filled(&self) -> usize {
        self.filled
    }

    /// Cells that hold material and something else.
    pub fn cut(&self) -> usize {
        self.cut.len()
    }

    /// Cut cells in which shells overlap, whose integrals are sampled and not exact.
    pub fn sampled(&self) -> usize {
        self.sampled
    }

    /// Volume of all cells' material, m³.
    pub fn volume(&self) -> f64 {
        let cut: f64 = self.cut.iter().map(|moments| moments[0] / 8.0).sum();
        ((self.filled - self.cut.len()) as f64 + cut) * self.grid.cell_volume()
    }

    pub(super) fn content(&self, cell: usize) -> Content<'_> {
        match self.content[cell] {
            EMPTY => Content::Empty,
            WHOLE_CELL => Content::Whole,
            number => Content::Cut(&self.cut[number as usize]),
        }
    }

    /// Moments of a cell, `None` if it is empty.
    pub(super) fn moments(&self, cell: usize) -> Option<&Moments> {
        match self.content(cell) {
            Content::Empty => None,
            Content::Whole => Some(&WHOLE),
            Content::Cut(moments) => Some(moments),
        }
    }

    /// Whether a point lies in a cell that is full.
    pub fn deep(&self, point: &Point3<f64>) -> bool {
        let at = self.grid.in_cells(point);
        let cell: [usize; 3] = [0, 1, 2].map(|axis| at[axis].max(0.0).floor() as usize);
        let inside = (0..3).all(|axis| at[axis] >= 0.0 && cell[axis] < self.grid.counts[axis]);
        inside && matches!(self.content(self.grid.index(cell)), Content::Whole)
    }

    /// The filled cell that holds a point of the surface, or the one nearest to it beside it.
    pub(super) fn cell_near(&self, point: &Point3<f64>, inward: &Vector3<f64>) -> Option<[usize; 3]> {
        let at = self.grid.in_cells(point)
            + inward.component_div(&self.grid.cell).try_normalize(0.0).unwrap_or_default() * 1e-6;
        let home: [i64; 3] = [0, 1, 2].map(|axis| at[axis].floor() as i64);
        let counts = self.grid.counts.map(|count| count as i64);
        let mut best: Option<(f64, [usize; 3])> = None;
        for number in 0..27_i64 {
            let cell = [home[0] + number % 3 - 1, home[1] + number / 3 % 3 - 1, home[2] + number / 9 - 1];
            if (0..3).any(|axis| cell[axis] < 0 || cell[axis] >= counts[axis]) {
                continue;
            }
            let cell = cell.map(|c| c as usize);
            if self.content[self.grid.index(cell)] == EMPTY {
                continue;
            }
            let outside = Vector3::from_fn(|axis, _| {
                let low = cell[axis] as f64;
                (low - at[axis]).max(at[axis] - low - 1.0).max(0.0)
            });
            if best.is_none_or(|(distance, _)| outside.norm_squared() < distance) {
                best = Some((outside.norm_squared(), cell));
            }
        }
        best.map(|(_, cell)| cell)
    }
}

fn facets_by_layer(facets: &[[Vector3<f64>; 3]], layers: usize) -> Vec<Vec<u32>> {
    let mut by_layer = vec![Vec::new(); layers];
    for (number, corners) in facets.iter().enumerate() {
        let least = corners.iter().map(|p| p.z).fold(f64::INFINITY, f64::min);
        let most = corners.iter().map(|p| p.z).fold(f64::NEG_INFINITY, f64::max);
        // One layer to each side, as a facet in the face between two goes to either.
        let first = (least.floor() - 1.0).max(0.0) as usize;
        let last = (most.floor().max(0.0) as usize).min(layers - 1);
        for layer in by_layer.iter_mut().take(last + 1).skip(first) {
            layer.push(number as u32);
        }
    }
    by_layer
}

/// Which connected surface each facet belongs to.
fn shell_numbers(mesh: &Mesh) -> Vec<u32> {
    const UNSEEN: u32 = u32::MAX;
    let mut owner = vec![UNSEEN; mesh.facets().len()];
    let mut stack = Vec::new();
    let mut number = 0;
    for seed in 0..owner.len() {
        if owner[seed] != UNSEEN {
            continue;
        }
        owner[seed] = number;
        stack.push(seed);
        while let Some(facet) = stack.pop() {
            for k in 0..3 {
                let next = mesh.opposite(3 * facet + k) / 3;
                if owner[next] == UNSEEN {
                    owner[next] = number;
                    stack.push(next);
                }
            }
        }
        number += 1;
    }
    owner
}

fn inward(corners: &[Vector3<f64>; 3]) -> Vector3<f64> {
    let [a, b, c] = corners;
    (c - a).cross(&(b - a)).try_normalize(0.0).unwrap_or_default()
}

/// Layer `k` of a grid, of which the cells of `window` are kept.
// One walk along its rows, whose steps share eight buffers.
#[allow(clippy::too_many_lines)]
fn layer(
    facets: &[[Vector3<f64>; 3]],
    here: &[u32],
    shell_of: &[u32],
    counts: [usize; 3],
    window: &[Range<usize>; 3],
    k: usize,
) -> CellLayer {
    let [nx, ny, _] = counts;
    let mut made =
        CellLayer { content: Vec::with_capacity(window[0].len() * window[1].len()), cut: Vec::new(), sampled: 0 };
    // Pieces of each row: its facets, and what they add to its cells.
    let mut rows: Vec<Vec<(u32, Polygon)>> = vec![Vec::new(); ny];
    for &number in here {
        let corners = &facets[number as usize];
        let beside = |beyond: &dyn Fn(f64) -> bool| corners.iter().all(|corner| beyond(corner.y));
        // A row more to each side, as a facet in the face between two goes to either.
        if beside(&|y| y < window[1].start as f64 - 1.0) || beside(&|y| y > window[1].end as f64 + 1.0) {
            continue;
        }
        let inward = inward(corners);
        clip::along(&corners.to_vec(), 2, counts[2], &inward, |layer, part| {
            if layer == k {
                clip::along(&part, 1, ny, &inward, |j, piece| rows[j].push((number, piece)));
            }
        });
    }
    let mut swept = vec![Swept::NONE; nx];
    let mut shells: Vec<Option<u32>> = vec![None; nx];
    let mut several = vec![false; nx];
    let mut codes = vec![EMPTY; nx];
    for (j, row) in rows.iter().enumerate().take(window[1].end).skip(window[1].start) {
        codes.fill(EMPTY);
        if row.is_empty() {
            made.content.extend(&codes[window[0].clone()]);
            continue;
        }
        swept.fill(Swept::NONE);
        shells.fill(None);
        several.fill(false);
        for (number, piece) in row {
            let shell = shell_of[*number as usize];
            clip::along(piece, 0, nx, &inward(&facets[*number as usize]), |i, part| {
                swept[i].add(&part, [i, j, k]);
                several[i] |= shells[i].is_some_and(|other| other != shell);
                shells[i] = Some(shell);
            });
        }
        let content = &mut codes;
        let mut beyond = [0.0; 9];
        let mut overlap = false;
        for i in 0..nx {
            let moments = gathered(&swept[i], &beyond);
            for (sum, added) in beyond.iter_mut().zip(&swept[i].beyond) {
                *sum += added;
            }
            let share = moments[0] / 8.0;
            overlap |= share > 1.0 + NOTHING;
            content[i] = if share < NOTHING {
                EMPTY
            } else if share > 1.0 - NOTHING {
                WHOLE_CELL
            } else {
                made.cut.push(moments);
                made.cut.len() as u32 - 1
            };
        }
        if overlap || several.iter().any(|&met| met) {
            let lines = ScanLines::through(facets, row, [j, k]);
            for i in (0..nx).filter(|&i| several[i]) {
                // A cell counted as cut keeps its place; one that becomes cut gets a new one.
                let moments = lines.union_in(i);
                let share = moments[0] / 8.0;
                made.sampled += 1;
                content[i] = if share < NOTHING {
                    EMPTY
                } else if share > 1.0 - NOTHING {
                    WHOLE_CELL
                } else if content[i] < WHOLE_CELL {
                    made.cut[content[i] as usize] = moments;
                    content[i]
                } else {
                    made.cut.push(moments);
                    made.cut.len() as u32 - 1
                };
            }
        }
        made.content.extend(&codes[window[0].clone()]);
    }
    drop_unused(&mut made);
    made
}

fn gathered(swept: &Swept, beyond: &[f64; 9]) -> Moments {
    // Integral of 1, x and x² across a cell.
    const ALONG: [f64; 3] = [2.0, 0.0, 2.0 / 3.0];
    let mut moments = swept.here;
    for (number, [a, b, c]) in WANTED {
        moments[number] += ALONG[a] * beyond[b + 3 * c];
    }
    moments
}

/// Removes moments no cell refers to any more.
fn drop_unused(layer: &mut CellLayer) {
    let kept: Vec<u32> = layer.content.iter().copied().filter(|&code| code < WHOLE_CELL).collect();
    if kept.len() == layer.cut.len() {
        return;
    }
    layer.cut = kept.iter().map(|&code| layer.cut[code as usize]).collect();
    let cut = layer.content.iter_mut().filter(|code| **code < WHOLE_CELL);
    cut.zip(0..).for_each(|(code, number)| *code = number);
}

/// Places along `x` in cells, +1 into the material and -1 out.
type Crossings = Vec<(f64, i32)>;

/// Straight lines along `x` through one row of cells, with where they cross the surface and which way.
struct ScanLines {
    /// Place across the cell, -1 to 1, and crossings.
    lines: Vec<([f64; 2], Crossings)>,
}

impl ScanLines {
    fn through(facets: &[[Vector3<f64>; 3]], row: &[(u32, Polygon)], at: [usize; 2]) -> Self {
        let mut numbers: Vec<u32> = row.iter().map(|(number, _)| *number).collect();
        numbers.sort_unstable();
        numbers.dedup();
        let place = |n: usize| -1.0 + (2 * n + 1) as f64 / LINES as f64;
        let lines = (0..LINES * LINES)
            .map(|n| {
                let across = [place(n % LINES), place(n / LINES)];
                // Off the middle by a hair, and not the same both ways, so that no line runs along an edge.
                let y = at[0] as f64 + 0.5 + across[0] / 2.0 + 1.234_567e-7;
                let z = at[1] as f64 + 0.5 + across[1] / 2.0 + 0.765_432e-7;
                let mut crossings: Crossings =
                    numbers.iter().filter_map(|&f| crossing(&facets[f as usize], y, z)).collect();
                crossings.sort_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)));
                (across, crossings)
            })
            // A line that does not come out as it went in met an edge; the others stand for it.
            .filter(|(_, crossings)| crossings.iter().map(|c| c.1).sum::<i32>() == 0)
            .collect();
        Self { lines }
    }

    /// Moments of the union of all shells in cell `i`.
    fn union_in(&self, i: usize) -> Moments {
        let mut moments = [0.0; 27];
        let weight = 4.0 / self.lines.len().max(1) as f64;
        for ([y, z], crossings) in &self.lines {
            let mut winding = 0;
            for (number, &(from, turn)) in crossings.iter().enumerate() {
                winding += turn;
                let to = crossings.get(number + 1).map_or(from, |next| next.0);
                let local = |x: f64| ((x - i as f64) * 2.0 - 1.0).clamp(-1.0, 1.0);
                let (low, high) = (local(from), local(to));
                if winding > 0 && high > low {
                    let along =
                        [high - low, (high * high - low * low) / 2.0, (high * high * high - low * low * low) / 3.0];
                    let (y, z) = ([1.0, *y, y * y], [1.0, *z, z * z]);
                    for (number, [a, b, c]) in WANTED {
                        moments[number] += weight * along[a] * y[b] * z[c];
                    }
                }
            }
        }
        moments
    }
}

fn crossing(corners: &[Vector3<f64>; 3], y: f64, z: f64) -> Option<(f64, i32)> {
    let side = |a: &Vector3<f64>, b: &Vector3<f64>| (b.y - a.y) * (z - a.z) - (b.z - a.z) * (y - a.y);
    let [a, b, c] = corners;
    let weights = [side(b, c), side(c, a), side(a, b)];
    let whole: f64 = weights.iter().sum();
    if whole == 0.0 || weights.iter().any(|w| w * whole < 0.0) {
        return None;
    }
    let x = (a.x * weights[0] + b.x * weights[1] + c.x * weights[2]) / whole;
    // Seen along x a facet that faces -x, where a line enters, runs clockwise.
    Some((x, if whole > 0.0 { -1 } else { 1 }))
}
