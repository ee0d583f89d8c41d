use std::collections::BTreeSet;
use std::ops::Range;

use nalgebra::{Matrix3, Point3, SVector, Vector3};

use super::error::FieldError;
use super::grid::Grid;
use super::held::HeldModel;
use super::model::FieldModel;
use super::support::{Spring, Springs, Support};

/// A box cut out of a solved part, with finer cells: where it is cut it moves as the part did (submodel; Saint-Venant's
/// principle keeps what the coarse displacements miss near the cut).
///
/// The model of the window is an ordinary one but for its cut faces: loads act on what of the surface lies within it.
#[derive(Debug)]
pub struct Zoom<'a> {
    coarse: &'a FieldModel,
    /// Cells of the coarse grid.
    window: [Range<usize>; 3],
    /// The window's own model.
    pub model: FieldModel,
}

/// How much stiffer than its surroundings a node of a cut face is held, over Young's modulus by the edge of a cell.
const HELD: f64 = 30.0;

impl<'a> Zoom<'a> {
    /// The cells within `reach` coarse cells of a point, each edge cut into `finer` parts.
    pub fn new(coarse: &'a FieldModel, point: &Point3<f64>, reach: f64, finer: usize) -> Result<Self, FieldError> {
        let grid = coarse.voxels.grid();
        let at = grid.in_cells(point);
        let window = [0, 1, 2].map(|axis| {
            let low = (at[axis] - reach).floor().max(0.0) as usize;
            let high = (at[axis] + reach).ceil().max(0.0) as usize;
            low.min(grid.counts[axis].saturating_sub(1))..high.clamp(1, grid.counts[axis])
        });
        let model = coarse.window(&window, finer)?;
        Ok(Self { coarse, window, model })
    }

    /// Whether a point is at least `depth` coarse cells inside every cut face.
    pub fn within(&self, point: &Point3<f64>, depth: f64) -> bool {
        let grid = self.coarse.voxels.grid();
        let at = grid.in_cells(point);
        (0..3).all(|axis| {
            let Range { start, end } = self.window[axis];
            let [below, above] = self.model.goes_on(axis);
            (!below || at[axis] >= start as f64 + depth) && (!above || at[axis] <= end as f64 - depth)
        })
    }

    /// The window held at its cut faces at the displacements of a solution of the whole, one entry a place of its
    /// vectors, and where `supports` of the whole reach into it by these.
    pub fn held(&self, displacement: &[f64], supports: &[Support]) -> Result<HeldModel<'_>, FieldError> {
        let mut springs = Springs::default();
        for support in supports {
            match springs.add(&self.model, support) {
                // It does not reach into the window.
                Err(FieldError::NoSurface { .. }) => {}
                added => added?,
            }
        }
        let floating = springs.by_cell.is_empty();
        self.add_springs(displacement, floating, &mut springs);
        Ok(HeldModel::with(&self.model, springs))
    }

    /// Adds those of the cut faces; `floating` tells that no support is in the window, so that its motion as one body makes no
    /// stress.
    fn add_springs(&self, displacement: &[f64], floating: bool, springs: &mut Springs) {
        let fine = self.model.voxels.grid();
        let edge = libm::cbrt(fine.cell_volume());
        let stiffness = HELD * self.model.stiffness.matrix().diagonal().amax() * edge;
        let mut held = Vec::new();
        let mut seen = BTreeSet::new();
        self.model.for_each_cell(|cell, _, _| {
            for corner in 0..8_usize {
                let node = [0, 1, 2].map(|axis| cell[axis] + (corner >> axis & 1));
                let cut = (0..3).any(|axis| {
                    let [below, above] = self.model.goes_on(axis);
                    (node[axis] == 0 && below) || (node[axis] == fine.counts[axis] && above)
                });
                if !cut || !seen.insert(node) {
                    continue;
                }
                let point = fine.in_metres(&Vector3::from_fn(|axis, _| node[axis] as f64));
                let middle = fine.in_metres(&Vector3::from_fn(|axis, _| cell[axis] as f64 + 0.5));
                if let Some(moved) = moved(self.coarse, displacement, &point, &(middle - point)) {
                    held.push((cell, corner, point, moved));
                }
            }
        });
        if floating {
            without_rigid_motion(&mut held);
        }
        for (cell, corner, point, moved) in held {
            springs.by_cell.entry(cell).or_default().extend((0..3).map(|component| Spring {
                reach: SVector::ith(3 * corner + component, 1.0),
                point,
                direction: Vector3::ith(component, 1.0),
                area: edge * edge,
                stiffness,
                slack: moved[component],
                one_sided: false,
                active: true,
            }));
        }
    }
}

/// A corner of a cell, where it is and how it moves.
type HeldNode = ([usize; 3], usize, Point3<f64>, Vector3<f64>);

/// Takes the motion of all nodes as one body out: it makes no stress, and beside it the rest would be lost in the
/// residual.
fn without_rigid_motion(held: &mut [HeldNode]) {
    let count = held.len().max(1) as f64;
    let middle = held.iter().map(|node| node.2.coords).sum::<Vector3<f64>>() / count;
    let shift = held.iter().map(|node| node.3).sum::<Vector3<f64>>() / count;
    let (mut inertia, mut moment) = (Matrix3::zeros(), Vector3::zeros());
    for (_, _, point, moved) in held.iter() {
        let arm = point.coords - middle;
        inertia += Matrix3::identity() * arm.norm_squared() - arm * arm.transpose();
        moment += arm.cross(&(moved - shift));
    }
    let turn = inertia.try_inverse().map_or_else(Vector3::zeros, |inverse| inverse * moment);
    for (_, _, point, moved) in held {
        *moved -= shift + turn.cross(&(point.coords - middle));
    }
}

/// Displacement of a point, from the filled cell it is in or the nearest toward `inward`.
fn moved(model: &FieldModel, displacement: &[f64], point: &Point3<f64>, inward: &Vector3<f64>) -> Option<Vector3<f64>> {
    let grid: &Grid = model.voxels.grid();
    let cell = model.voxels.cell_near(point, inward)?;
    let at = grid.in_cells(point);
    let local = Vector3::from_fn(|axis, _| 2.0 * (at[axis] - cell[axis] as f64) - 1.0);
    let corners = model.corners(cell, displacement);
    let weights = super::element::shape(&local);
    Some(Vector3::from_fn(|component, _| (0..8).map(|c| weights[c] * corners[3 * c + component]).sum()))
}
