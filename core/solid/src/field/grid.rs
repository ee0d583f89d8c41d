use nalgebra::{Point3, Vector3};

use super::error::FieldError;
use crate::mesh::Mesh;

/// A box divided into equal cells; `x` runs fastest, and cells along `x` at one `y` and `z` are a **row**.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grid {
    /// Lowest corner, m.
    pub origin: Point3<f64>,
    /// Edges of a cell, m.
    pub cell: Vector3<f64>,
    /// Cells along each axis.
    pub counts: [usize; 3],
}

/// Fewest and most cells in the part.
pub const CELLS_RANGE: (usize, usize) = (50, 8_000_000);

/// Most cells of the box: its bookkeeping takes 8 bytes a cell.
const BOX_LIMIT: u64 = 100_000_000;

impl Grid {
    /// The grid that fills the box round `mesh` exactly and has about `cells` cells in the part.
    ///
    /// Cells are as near to cubes as whole numbers of them allow: faces of the part that lie in the box's faces, as
    /// those of a rod or plate often do, then are faces of cells.
    pub fn round(mesh: &Mesh, cells: usize) -> Result<Self, FieldError> {
        let (low, high) = CELLS_RANGE;
        if !(low..=high).contains(&cells) {
            return Err(FieldError::CellCount { wanted: cells, low, high });
        }
        let volume = mesh.mass_properties().volume;
        if !(volume.is_finite() && volume > 0.0) {
            return Err(FieldError::NoVolume);
        }
        Self::with_edge(mesh, libm::cbrt(volume / cells as f64))
    }

    /// The grid that fills the box round `mesh` exactly, with cells of about `edge` (m). From eight cells on their number
    /// along an axis is even, so that a part that mirrors itself has its cells do so.
    pub fn with_edge(mesh: &Mesh, edge: f64) -> Result<Self, FieldError> {
        let edge = FieldError::positive("the edge of a cell", edge)?;
        let (origin, top) = mesh.bounds();
        let extent = top - origin;
        if !extent.iter().all(|length| length.is_finite() && *length > 0.0) {
            return Err(FieldError::NoVolume);
        }
        let wanted = extent.map(|length| {
            let count = length / edge;
            if count < 8.0 { count.round().max(1.0) } else { 2.0 * (count / 2.0).round() }
        });
        let boxed = wanted.product();
        if boxed > BOX_LIMIT as f64 {
            return Err(FieldError::TooSparse { cells: boxed as u64, limit: BOX_LIMIT });
        }
        Ok(Self { origin, cell: extent.component_div(&wanted), counts: [0, 1, 2].map(|axis| wanted[axis] as usize) })
    }

    /// Cells of the whole box.
    pub fn len(&self) -> usize {
        self.counts.iter().product()
    }

    /// Whether the grid has no cells.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Volume of a cell, m³.
    pub fn cell_volume(&self) -> f64 {
        self.cell.product()
    }

    /// Number of the cell at `at`.
    pub(super) fn index(&self, at: [usize; 3]) -> usize {
        at[0] + self.counts[0] * (at[1] + self.counts[1] * at[2])
    }

    /// Middle along x of the cell with a number, m.
    pub(super) fn middle_x(&self, cell: usize) -> f64 {
        self.origin.x + self.cell.x * ((cell % self.counts[0]) as f64 + 0.5)
    }

    /// A point in units of cells from the lowest corner.
    pub(super) fn in_cells(&self, point: &Point3<f64>) -> Vector3<f64> {
        (point - self.origin).component_div(&self.cell)
    }

    /// The other way round.
    pub(super) fn in_metres(&self, cells: &Vector3<f64>) -> Point3<f64> {
        self.origin + cells.component_mul(&self.cell)
    }
}
