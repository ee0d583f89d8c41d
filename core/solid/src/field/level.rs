use nalgebra::Matrix3;

use super::element::CellMatrix;
use super::lines::{Folds, Lines};
use super::stencil::Whole;
use crate::numeric::map_in_order;

// Corner `c` of a cell lies at the bits of its number, and so does, seen from a node, the cell of which the node is corner `c`:
//
//        6-------7        c & 1        one step along x
//       /|      /|        c >> 1 & 1   one along y
//      4-------5 |        c >> 2       one along z
//      | 2-----|-3
//      |/      |/         node (i, j, k) is corner c of cell
//      0-------1          (i - (c & 1), j - (c >> 1 & 1), k - (c >> 2))
/// One grid of the hierarchy with its stiffness: whole cells share one matrix times a share, others have their own.
#[derive(Debug, Clone)]
pub(super) struct Level {
    /// Cells along each axis.
    pub(super) counts: [usize; 3],
    pub(super) lines: Lines,
    rows: Vec<CellRow>,
    pub(super) whole: CellMatrix,
    pub(super) single: Box<Whole<f32>>,
    pub(super) double: Box<Whole<f64>>,
}

/// Cells along `x` at one `y` and `z`.
#[derive(Debug, Clone, Default)]
pub(super) struct CellRow {
    /// Stiffness of each cell over that of a whole one; 0 where the cell is empty or has a matrix of its own.
    pub(super) share: Vec<f32>,
    /// Cells with a matrix of their own, rising.
    pub(super) at: Vec<u32>,
    /// Their matrices, apart by the line of nodes the rows belong to: a product works on one line of nodes and reads what
    /// it needs in one go.
    pub(super) own: [Vec<f32>; 4],
}

/// A cell's own matrix.
#[derive(Debug, Clone, Copy)]
pub(super) struct OwnMatrix<'a>([&'a [f32]; 4]);

impl OwnMatrix<'_> {
    pub(super) fn entry(&self, row: usize, column: usize) -> f64 {
        f64::from(self.0[row / 6][6 * column + row % 6])
    }
}

/// What one cell of a level is.
#[derive(Debug, Clone, Copy)]
pub(super) enum Cell<'a> {
    Empty,
    Share(f32),
    Own(OwnMatrix<'a>),
}

/// Entries of a cell's own matrix for one line of nodes: 24 columns of six.
pub(super) const ENTRIES: usize = 144;

impl CellRow {
    /// A row of `count` cells, each as `cell` says.
    pub(super) fn new(count: usize, mut cell: impl FnMut(usize) -> CellMakeup) -> Self {
        let mut row = Self { share: vec![0.0; count], at: Vec::new(), own: Default::default() };
        for i in 0..count {
            match cell(i) {
                CellMakeup::Empty => {}
                CellMakeup::Share(share) => row.share[i] = share,
                CellMakeup::Own(matrix) => {
                    row.at.push(i as u32);
                    for (line, own) in row.own.iter_mut().enumerate() {
                        let columns = matrix.as_slice().chunks_exact(24);
                        own.extend(
                            columns.flat_map(|column| &column[6 * line..6 * line + 6]).map(|&entry| entry as f32),
                        );
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
pub(super) enum CellMakeup {
    Empty,
    Share(f32),
    Own(Box<CellMatrix>),
}

impl Level {
    /// With what lies beyond the first planes of nodes.
    pub(super) fn new(counts: [usize; 3], rows: Vec<CellRow>, whole: &CellMatrix, folds: Folds) -> Self {
        let spans: Vec<_> = rows.iter().map(CellRow::span).collect();
        let lines = Lines::new(counts, &spans).folded(folds);
        let single = Box::new(Whole::new(whole, f64::from(f32::EPSILON), |entry| entry as f32));
        let double = Box::new(Whole::new(whole, 4.0 * f64::EPSILON, |entry| entry));
        Self { counts, lines, rows, whole: *whole, single, double }
    }

    pub(super) fn row(&self, j: usize, k: usize) -> &CellRow {
        &self.rows[j + self.counts[1] * k]
    }

    /// The row at `j`, `k`, if there is one.
    pub(super) fn row_at(&self, j: i64, k: i64) -> Option<&CellRow> {
        let inside = j >= 0 && k >= 0 && j < self.counts[1] as i64 && k < self.counts[2] as i64;
        inside.then(|| self.row(j as usize, k as usize))
    }

    /// Cells with matrices of their own.
    pub(super) fn own_cells(&self) -> usize {
        self.rows.iter().map(|row| row.at.len()).sum()
    }

    /// Forces that a cell has at corner `p` when corner `q` moves.
    pub(super) fn block(&self, cell: Cell<'_>, p: usize, q: usize) -> Matrix3<f64> {
        match cell {
            Cell::Empty => Matrix3::zeros(),
            Cell::Share(share) => self.whole.fixed_view::<3, 3>(3 * p, 3 * q) * f64::from(share),
            Cell::Own(matrix) => Matrix3::from_fn(|r, s| matrix.entry(3 * p + r, 3 * q + s)),
        }
    }

    /// The 3 x 3 block of every node; along an axis on which it is held it stands alone.
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
                let held = self.lines.held([first + t, j as usize, k as usize]);
                for (r, s) in (0..9).map(|n| (n / 3, n % 3)).filter(|&(r, s)| r != s && (held[r] || held[s])) {
                    block[(r, s)] = 0.0;
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
