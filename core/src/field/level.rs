// What a product calls has to be inlined to be compiled for its vector registers.
#![allow(clippy::inline_always)]

use nalgebra::Matrix3;

use super::element::CellMatrix;
use super::lines::Lines;
use super::number::Number;
use super::vectors::widest;
use crate::numeric::map_in_order;

/// One grid of the hierarchy with its stiffness: whole cells share one matrix times a share, others have their own.
#[derive(Debug, Clone)]
pub(super) struct Level {
    /// Cells along each axis.
    pub(super) counts: [usize; 3],
    pub(super) lines: Lines,
    rows: Vec<Row>,
    pub(super) whole: CellMatrix,
    single: Box<Whole<f32>>,
    double: Box<Whole<f64>>,
}

/// Cells along `x` at one `y` and `z`.
#[derive(Debug, Clone, Default)]
pub(super) struct Row {
    /// Stiffness of each cell over that of a whole one; 0 where the cell is empty or has a matrix of its own.
    pub(super) share: Vec<f32>,
    /// Cells with a matrix of their own, rising.
    pub(super) at: Vec<u32>,
    /// Their matrices, apart by the line of nodes the rows belong to: a product works on one line of nodes and reads what
    /// it needs in one go.
    own: [Vec<f32>; 4],
}

/// A cell's own matrix.
#[derive(Debug, Clone, Copy)]
pub(super) struct OwnMatrix<'a>([&'a [f32]; 4]);

impl OwnMatrix<'_> {
    pub(super) fn entry(&self, row: usize, column: usize) -> f64 {
        f64::from(self.0[row / 6][24 * (row % 6) + column])
    }
}

/// What one cell of a level is.
#[derive(Debug, Clone, Copy)]
pub(super) enum Cell<'a> {
    Empty,
    Share(f32),
    Own(OwnMatrix<'a>),
}

/// Entries of a cell's own matrix for one line of nodes: six rows of 24.
const ENTRIES: usize = 144;

impl Row {
    /// A row of `count` cells, each as `cell` says.
    pub(super) fn new(count: usize, mut cell: impl FnMut(usize) -> Makeup) -> Self {
        let mut row = Self { share: vec![0.0; count], at: Vec::new(), own: Default::default() };
        for i in 0..count {
            match cell(i) {
                Makeup::Empty => {}
                Makeup::Share(share) => row.share[i] = share,
                Makeup::Own(matrix) => {
                    row.at.push(i as u32);
                    // Symmetric, so columns one after the other are rows one after the other.
                    for (own, columns) in row.own.iter_mut().zip(matrix.as_slice().chunks_exact(ENTRIES)) {
                        own.extend(columns.iter().map(|&entry| entry as f32));
                    }
                }
            }
        }
        row
    }

    pub(super) fn cell(&self, i: usize) -> Cell<'_> {
        if self.share[i] != 0.0 {
            return Cell::Share(self.share[i]);
        }
        match self.at.binary_search(&(i as u32)) {
            Ok(n) => Cell::Own(OwnMatrix(self.own.each_ref().map(|own| &own[n * ENTRIES..(n + 1) * ENTRIES]))),
            Err(_) => Cell::Empty,
        }
    }

    /// First filled cell and the one after the last.
    fn span(&self) -> Option<(u32, u32)> {
        let shared = |&share: &f32| share != 0.0;
        let first = self.share.iter().position(shared).map(|i| i as u32);
        let last = self.share.iter().rposition(shared).map(|i| i as u32);
        let first = first.into_iter().chain(self.at.first().copied()).min()?;
        let last = last.into_iter().chain(self.at.last().copied()).max()?;
        Some((first, last + 1))
    }
}

/// How a cell's stiffness is given when a row is built.
#[derive(Debug, Clone)]
pub(super) enum Makeup {
    Empty,
    Share(f32),
    Own(Box<CellMatrix>),
}

/// The matrix of a whole cell, and of a node amid whole cells, ready for use.
#[derive(Debug, Clone)]
struct Whole<T> {
    /// For each corner the node may be, and each dof of the cell, the node's three forces.
    corner: [[[T; 3]; 24]; 8],
    /// For each of the 27 nodes round a node and each component there, its three forces.
    node: [[[T; 3]; 3]; 27],
}

impl<T: Number<Factor = T>> Whole<T> {
    fn new(matrix: &CellMatrix, number: impl Fn(f64) -> T) -> Self {
        let mut sums = [[[0.0; 3]; 3]; 27];
        let mut corner = [[[T::default(); 3]; 24]; 8];
        for c in 0..8 {
            for dof in 0..24 {
                let d = dof / 3;
                let step = |axis: usize| 1 + (d >> axis & 1) - (c >> axis & 1);
                let neighbour = step(0) + 3 * step(1) + 9 * step(2);
                for r in 0..3 {
                    let entry = matrix[(3 * c + r, dof)];
                    corner[c][dof][r] = number(entry);
                    sums[neighbour][dof % 3][r] += entry;
                }
            }
        }
        Self { corner, node: sums.map(|columns| columns.map(|rows| rows.map(&number))) }
    }
}

/// Nodes worked on together.
const LANES: usize = 8;

/// Room for the product of one line: asked of the allocator line by line it takes as long as the product of a short one.
#[derive(Debug, Default)]
struct Room<T> {
    near: Window<T>,
    shares: Vec<f32>,
    sums: Vec<T>,
}

/// The nine lines round one, kept while the next line needs them too: of those, six are the same.
#[derive(Debug, Default)]
struct Window<T> {
    values: Vec<T>,
    /// Which line each place holds.
    held: [Option<[i64; 2]>; 9],
}

/// What a [`Window`] holds: each component of a line from the node before the first of the grid to beyond the last.
#[derive(Debug, Clone, Copy)]
struct Near<'a, T> {
    values: &'a [T],
    /// Length of a component.
    stride: usize,
    /// Where lines begin, those at lower `y` first.
    starts: [usize; 9],
    /// First node of the line that is worked on.
    first: usize,
}

impl<T> Near<'_, T> {
    /// Where the node `t` beside the first one, less one, stands in a line round this one.
    fn place(&self, line: usize, component: usize, t: usize) -> usize {
        self.starts[line] + component * self.stride + self.first + t
    }
}

impl<T: Number> Window<T> {
    /// The lines round the one at `j`, `k`, with room to read `N` nodes at once at their ends.
    fn round<const N: usize>(&mut self, lines: &Lines, [j, k]: [i64; 2], x: &[T]) -> Near<'_, T> {
        let nodes = lines.counts[0] + 2;
        let stride = nodes + N;
        self.values.resize(27 * stride, T::default());
        let mut starts = [0; 9];
        for (number, start) in starts.iter_mut().enumerate() {
            let at = [j + (number % 3) as i64 - 1, k + (number / 3) as i64 - 1];
            // Neighbours take the places of those that the window leaves behind.
            let place = ((at[0] + 1) % 3 + 3 * ((at[1] + 1) % 3)) as usize;
            *start = 3 * place * stride;
            if self.held[place] == Some(at) {
                continue;
            }
            self.held[place] = Some(at);
            let from = lines.line(at[0], at[1]);
            for component in 0..3 {
                let start = *start + component * stride;
                lines.copy(from, x, component, -1, &mut self.values[start..start + nodes]);
            }
        }
        Near { values: &self.values, stride, starts, first: 0 }
    }
}

/// The first `length` numbers of a vector that may have to grow; what they are is left from last time.
fn part_of<T: Copy + Default>(vector: &mut Vec<T>, length: usize) -> &mut [T] {
    if vector.len() < length {
        vector.resize(length, T::default());
    }
    &mut vector[..length]
}

/// What becomes of a product.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Into {
    /// It takes the vector's place.
    Set,
    /// It is taken from the vector.
    Subtract,
}

impl Level {
    pub(super) fn new(counts: [usize; 3], rows: Vec<Row>, whole: &CellMatrix) -> Self {
        let spans: Vec<_> = rows.iter().map(Row::span).collect();
        let lines = Lines::new(counts, &spans);
        let single = Box::new(Whole::new(whole, |entry| entry as f32));
        let double = Box::new(Whole::new(whole, |entry| entry));
        Self { counts, lines, rows, whole: *whole, single, double }
    }

    pub(super) fn row(&self, j: usize, k: usize) -> &Row {
        &self.rows[j + self.counts[1] * k]
    }

    /// The row at `j`, `k`, if there is one.
    fn row_at(&self, j: i64, k: i64) -> Option<&Row> {
        let inside = j >= 0 && k >= 0 && j < self.counts[1] as i64 && k < self.counts[2] as i64;
        inside.then(|| self.row(j as usize, k as usize))
    }

    /// Cells with matrices of their own.
    pub(super) fn own_cells(&self) -> usize {
        self.rows.iter().map(|row| row.at.len()).sum()
    }

    /// Product of the stiffness with `x` in single precision.
    pub(super) fn single<T: Number<Factor = f32>>(&self, x: &[T], y: &mut [T], into: Into) {
        self.product(&self.single, x, y, into);
    }

    /// Product of the stiffness with `x` in double precision.
    pub(super) fn double<T: Number<Factor = f64>>(&self, x: &[T], y: &mut [T], into: Into) {
        self.product(&self.double, x, y, into);
    }

    fn product<T: Number>(&self, whole: &Whole<T::Factor>, x: &[T], y: &mut [T], into: Into) {
        self.lines.for_each_with(y, Room::default, |line, out, room| {
            // Vector registers hold neighbouring nodes of one load, or all loads of one node.
            widest(
                #[inline(always)]
                || {
                    if T::LOADS == 1 {
                        self.line_product::<T, LANES>(whole, line, x, (out, into), room);
                    } else {
                        self.line_product::<T, 2>(whole, line, x, (out, into), room);
                    }
                },
            );
        });
    }

    /// Forces on the nodes of one line, `N` of them together.
    #[inline(always)]
    fn line_product<T: Number, const N: usize>(
        &self,
        whole: &Whole<T::Factor>,
        line: usize,
        x: &[T],
        (out, into): (&mut [T], Into),
        room: &mut Room<T>,
    ) {
        let (first, length) = self.lines.stretch(line);
        if length == 0 {
            return;
        }
        let (j, k) = ((line % self.lines.counts[1]) as i64, (line / self.lines.counts[1]) as i64);
        let near = Near { first, ..room.near.round::<N>(&self.lines, [j, k], x) };
        // Shares of the cells of the four rows round it, from the one before the first node.
        let span = length + 1 + N;
        let shares = part_of(&mut room.shares, 4 * span);
        for (number, part) in shares.chunks_exact_mut(span).enumerate() {
            part.fill(0.0);
            let Some(row) = self.row_at(j - (number & 1) as i64, k - (number >> 1) as i64) else { continue };
            for (t, share) in part.iter_mut().enumerate().take(length + 1) {
                if let Some(&s) = (first + t).checked_sub(1).and_then(|i| row.share.get(i)) {
                    *share = s;
                }
            }
        }
        let sums = part_of(&mut room.sums, 3 * length);
        for start in (0..length).step_by(N) {
            let sum = chunk::<T, N>(whole, near, shares, span, start);
            let end = (start + N).min(length);
            for (r, lanes) in sum.iter().enumerate() {
                sums[r * length + start..r * length + end].copy_from_slice(&lanes[..end - start]);
            }
        }
        for number in 0..4 {
            let (b, c) = (number & 1, number >> 1);
            if let Some(row) = self.row_at(j - b as i64, k - c as i64) {
                own_products(row, [b, c], near, sums, length);
            }
        }
        match into {
            Into::Set => out.copy_from_slice(sums),
            Into::Subtract => out.iter_mut().zip(&*sums).for_each(|(value, sum)| *value -= *sum),
        }
    }

    /// Forces that a cell has at corner `p` when corner `q` moves.
    pub(super) fn block(&self, cell: Cell<'_>, p: usize, q: usize) -> Matrix3<f64> {
        match cell {
            Cell::Empty => Matrix3::zeros(),
            Cell::Share(share) => self.whole.fixed_view::<3, 3>(3 * p, 3 * q) * f64::from(share),
            Cell::Own(matrix) => Matrix3::from_fn(|r, s| matrix.entry(3 * p + r, 3 * q + s)),
        }
    }

    /// The 3 x 3 block of every node, laid out as six entries (xx, yy, zz, yz, zx, xy) of twice the nodes' places.
    pub(super) fn blocks(&self) -> Vec<Matrix3<f64>> {
        let lines = map_in_order(self.lines.lines(), |line| {
            let (first, length) = self.lines.stretch(line);
            let (j, k) = ((line % self.lines.counts[1]) as i64, (line / self.lines.counts[1]) as i64);
            let mut blocks = vec![Matrix3::zeros(); length];
            for (t, block) in blocks.iter_mut().enumerate() {
                for c in 0..8_usize {
                    let Some(row) = self.row_at(j - (c >> 1 & 1) as i64, k - (c >> 2) as i64) else { continue };
                    let Some(i) = (first + t).checked_sub(c & 1).filter(|&i| i < self.counts[0]) else { continue };
                    *block += self.block(row.cell(i), c, c);
                }
            }
            blocks
        });
        lines.concat()
    }

    /// Hands every filled cell's place and the entries of its matrix to `take`.
    pub(super) fn for_each_matrix(&self, mut take: impl FnMut([usize; 3], &dyn Fn(usize, usize) -> f64)) {
        for (number, row) in self.rows.iter().enumerate() {
            for i in 0..self.counts[0] {
                let cell = [i, number % self.counts[1], number / self.counts[1]];
                match row.cell(i) {
                    Cell::Empty => {}
                    Cell::Share(share) => take(cell, &|p, q| self.whole[(p, q)] * f64::from(share)),
                    Cell::Own(matrix) => take(cell, &|p, q| matrix.entry(p, q)),
                }
            }
        }
    }

    /// Place in a vector of a dof of a filled cell.
    pub(super) fn place(&self, cell: [usize; 3], dof: usize) -> usize {
        let corner = dof / 3;
        self.lines.place([0, 1, 2].map(|axis| cell[axis] + (corner >> axis & 1)), dof % 3)
    }
}

/// Forces from whole cells on `N` nodes from `start`.
#[inline(always)]
fn chunk<T: Number, const N: usize>(
    whole: &Whole<T::Factor>,
    near: Near<'_, T>,
    shares: &[f32],
    span: usize,
    start: usize,
) -> [[T; N]; 3] {
    let mut sum = [[T::default(); N]; 3];
    let one = shares[start];
    let even = shares.chunks_exact(span).all(|row| row[start..=start + N].iter().all(|&share| share == one));
    if even {
        if one == 0.0 {
            return sum;
        }
        for (n, columns) in whole.node.iter().enumerate() {
            for (component, factors) in columns.iter().enumerate() {
                let place = near.place(n / 3, component, start + n % 3);
                let Some(u) = near.values[place..].first_chunk::<N>() else { continue };
                add(&mut sum, factors, u);
            }
        }
        let one = T::Factor::from(one);
        sum.iter_mut().flatten().for_each(|value| *value = *value * one);
        return sum;
    }
    for (c, columns) in whole.corner.iter().enumerate() {
        let place = (c >> 1) * span + start + 1 - (c & 1);
        let Some(share) = shares[place..].first_chunk::<N>() else { continue };
        if share.iter().all(|&s| s == 0.0) {
            continue;
        }
        let mut part = [[T::default(); N]; 3];
        for (dof, factors) in columns.iter().enumerate() {
            let d = dof / 3;
            let line = (1 + (d >> 1 & 1) - (c >> 1 & 1)) + 3 * (1 + (d >> 2) - (c >> 2));
            let place = near.place(line, dof % 3, start + 1 + (d & 1) - (c & 1));
            let Some(u) = near.values[place..].first_chunk::<N>() else { continue };
            add(&mut part, factors, u);
        }
        for (lanes, added) in sum.iter_mut().zip(&part) {
            for lane in 0..N {
                lanes[lane] += added[lane] * T::Factor::from(share[lane]);
            }
        }
    }
    sum
}

#[inline(always)]
fn add<T: Number, const N: usize>(sum: &mut [[T; N]; 3], factors: &[T::Factor; 3], u: &[T; N]) {
    for (lanes, factor) in sum.iter_mut().zip(factors) {
        for lane in 0..N {
            lanes[lane] += u[lane] * *factor;
        }
    }
}

/// Adds the forces of a row's own matrices on the line that is at `[b, c]` of the row's cells.
#[inline(always)]
fn own_products<T: Number>(row: &Row, [b, c]: [usize; 2], near: Near<'_, T>, sums: &mut [T], length: usize) {
    // Each component of the four lines of nodes round the row.
    let edges: [[&[T]; 3]; 4] = std::array::from_fn(|edge| {
        let line = (1 + (edge & 1) - b) + 3 * (1 + (edge >> 1) - c);
        std::array::from_fn(|component| &near.values[near.place(line, component, 1)..][..=length])
    });
    for (number, &i) in row.at.iter().enumerate() {
        let i = i as usize;
        // Node `i` stands at `i - first` of the line; the first of its two nodes may be no other's than this cell's.
        let t = i - near.first;
        let mut u = [T::default(); 24];
        for (values, edge) in u.chunks_exact_mut(6).zip(&edges) {
            for (component, line) in edge.iter().enumerate() {
                let Some(&[one, two]) = line[t..].first_chunk() else { continue };
                (values[component], values[3 + component]) = (one, two);
            }
        }
        let rows = &row.own[b + 2 * c][number * ENTRIES..][..ENTRIES];
        if T::LOADS > 1 {
            // Six rows at once: each number of `u` is read once for them, and no sum waits for the one before.
            let mut sum = [T::default(); 6];
            for (n, value) in u.iter().enumerate() {
                for (r, force) in sum.iter_mut().enumerate() {
                    *force += *value * T::Factor::from(rows[24 * r + n]);
                }
            }
            for (r, force) in sum.into_iter().enumerate() {
                sums[(r % 3) * length + t + r / 3] += force;
            }
            continue;
        }
        for (r, entries) in rows.chunks_exact(24).enumerate() {
            let mut lanes = [T::default(); 8];
            for part in 0..3 {
                for lane in 0..8 {
                    lanes[lane] += u[8 * part + lane] * T::Factor::from(entries[8 * part + lane]);
                }
            }
            let [p, q, v, w, x, y, z, o] = lanes;
            sums[(r % 3) * length + t + r / 3] += ((p + x) + (q + y)) + ((v + z) + (w + o));
        }
    }
}
