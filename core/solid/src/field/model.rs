use std::ops::Range;

use nalgebra::{Point3, SVector, Vector3, Vector6};

use super::bands::Bands;
use super::element::Element;
use super::error::FieldError;
use super::grid::Grid;
use super::inside::LighterInside;
use super::level::{CellMakeup, CellRow, Level};
use super::lines::{Folds, Lines};
use super::moments::Moments;
use super::softness::{Softened, Softness};
use super::stiffness::Stiffness;
use super::support::Springs;
use super::voxels::{Content, Voxels};
use crate::field::surface::{self, SurfacePatch};
use crate::mesh::Mesh;
use crate::numeric::map_in_order;

/// A part divided into cells with the stiffness of its material: what all loads and supports share.
#[derive(Debug, Clone)]
pub struct FieldModel {
    pub(super) mesh: Mesh,
    pub(super) voxels: Voxels,
    pub(super) stiffness: Stiffness,
    pub(super) element: Element,
    /// The grid of the whole part that this one is a window of, and the window's first cell in it.
    whole: (Grid, [usize; 3]),
    bands: Option<Bands>,
    inside: Option<LighterInside>,
    pub(super) softened: Option<Softened>,
    pub(super) lines: Lines,
    /// Whether a node with material stands at each place of a vector.
    pub(super) filled: Vec<bool>,
}

impl FieldModel {
    /// A solid part.
    pub fn solid(mesh: Mesh, grid: Grid, stiffness: Stiffness) -> Result<Self, FieldError> {
        let voxels = Voxels::new(&mesh, grid)?;
        Ok(Self::of(mesh, voxels, &stiffness, (None, None), (grid, [0; 3])))
    }

    /// A part with solid bands round a lighter inside; `inside` in the coordinates of the mesh.
    pub fn with_inside(
        mesh: Mesh,
        grid: Grid,
        stiffness: Stiffness,
        inside: &LighterInside,
    ) -> Result<Self, FieldError> {
        let voxels = Voxels::new(&mesh, grid)?;
        Ok(Self::of(mesh, voxels, &stiffness, (Some(inside), None), (grid, [0; 3])))
    }

    /// The same part with less stiffness where it is warmer.
    #[must_use]
    pub fn softened(self, softness: Softness) -> Self {
        Self { softened: Softened::new(softness, self.stiffness.matrix()), ..self }
    }

    /// The cells `window` of this model again, each edge cut into `finer` parts; `window` counts this model's cells.
    pub(super) fn window(&self, window: &[Range<usize>; 3], finer: usize) -> Result<Self, FieldError> {
        let (Grid { origin, cell, counts }, start) = self.whole;
        let whole = Grid { origin, cell: cell / finer as f64, counts: counts.map(|count| count * finer) };
        let axes = [0, 1, 2];
        let window = axes.map(|a| (start[a] + window[a].start) * finer..(start[a] + window[a].end) * finer);
        let voxels = Voxels::window(&self.mesh, &whole, &window)?;
        let whole = (whole, window.map(|range| range.start));
        let made = (self.inside.as_ref(), self.softened.clone());
        Ok(Self::of(self.mesh.clone(), voxels, &self.stiffness, made, whole))
    }

    /// Whether the part goes on beyond the first and beyond the last cell along `axis`.
    pub(super) fn goes_on(&self, axis: usize) -> [bool; 2] {
        let (whole, start) = &self.whole;
        [start[axis] > 0, start[axis] + self.voxels.grid().counts[axis] < whole.counts[axis]]
    }

    fn of(
        mesh: Mesh,
        voxels: Voxels,
        stiffness: &Stiffness,
        (inside, softened): (Option<&LighterInside>, Option<Softened>),
        whole: (Grid, [usize; 3]),
    ) -> Self {
        let bands = inside.filter(|inside| inside.density < 1.0).map(|inside| Bands::new(&mesh, &voxels, inside));
        let grid = *voxels.grid();
        let element = Element::new(&grid.cell, stiffness.matrix());
        let [nx, ny, nz] = grid.counts;
        let spans = map_in_order(ny * nz, |row| {
            let filled = |&i: &usize| !matches!(voxels.content(row * nx + i), Content::Empty);
            let first = (0..nx).find(filled)?;
            let last = (0..nx).rfind(filled)?;
            Some((first as u32, last as u32 + 1))
        });
        let lines = Lines::new(grid.counts, &spans);
        let mut model = Self {
            mesh,
            voxels,
            stiffness: *stiffness,
            element,
            whole,
            bands,
            inside: inside.copied(),
            softened,
            filled: vec![false; lines.len()],
            lines,
        };
        let mut filled = std::mem::take(&mut model.filled);
        model.for_each_cell(|cell, _, _| (0..24).for_each(|dof| filled[model.place(cell, dof)] = true));
        model.filled = filled;
        model
    }

    /// The part as cells.
    pub fn voxels(&self) -> &Voxels {
        &self.voxels
    }

    /// The surface it was made from.
    pub fn mesh(&self) -> &Mesh {
        &self.mesh
    }

    /// The surface of facets, in points.
    pub fn surface(&self, facets: &[usize]) -> SurfacePatch {
        SurfacePatch { points: surface::points(&self.mesh, &self.voxels, facets) }
    }

    /// Integral over facets of a function of the place, times m².
    pub fn integral(&self, facets: &[usize], value: impl Fn(&Point3<f64>) -> f64) -> f64 {
        let points = surface::points(&self.mesh, &self.voxels, facets);
        points.iter().map(|point| value(&point.point) * point.area.norm()).sum()
    }

    /// Unknown displacements.
    pub fn unknowns(&self) -> usize {
        self.filled.iter().filter(|&&there| there).count()
    }

    /// Stiffness of a cell's material over that of the solid where it is coolest.
    pub(super) fn stiffness_share(&self, cell: usize) -> f64 {
        self.solidity(cell) * self.softened.as_ref().map_or(1.0, |soft| soft.at(self.voxels.grid().middle_x(cell)))
    }

    /// Stiffness that the lighter inside leaves a cell.
    pub(super) fn solidity(&self, cell: usize) -> f64 {
        self.bands.as_ref().map_or(1.0, |bands| bands.stiffness(cell))
    }

    /// Stiffness of solid material at a point over that where it is coolest.
    pub(super) fn warm_share(&self, point: &Point3<f64>) -> f64 {
        self.softened.as_ref().map_or(1.0, |soft| soft.at(point.x))
    }

    /// The strain at a point from what changes evenly there.
    pub(super) fn strain_of(&self, even: &Vector6<f64>, point: &Point3<f64>) -> Vector6<f64> {
        self.softened.as_ref().map_or(*even, |soft| soft.strain(even, point.x))
    }

    /// Mass of a cell's material over that of the solid.
    pub(super) fn mass_share(&self, cell: usize) -> f64 {
        self.bands.as_ref().map_or(1.0, |bands| bands.mass(cell))
    }

    /// Mean solid share of the material, by volume.
    pub fn solid_share(&self) -> f64 {
        let Some(bands) = &self.bands else { return 1.0 };
        let (mut solid, mut whole) = (0.0, 0.0);
        self.for_each_cell(|_, index, moments| {
            solid += moments[0] * bands.solid(index);
            whole += moments[0];
        });
        solid / whole
    }

    /// Calls `work` for every filled cell with its place, its number in the box and its moments.
    pub(super) fn for_each_cell(&self, mut work: impl FnMut([usize; 3], usize, &Moments)) {
        let [nx, ny, nz] = self.voxels.grid().counts;
        for k in 0..nz {
            for j in 0..ny {
                for i in 0..nx {
                    let index = i + nx * (j + ny * k);
                    if let Some(moments) = self.voxels.moments(index) {
                        work([i, j, k], index, moments);
                    }
                }
            }
        }
    }

    /// Middle of the box.
    pub fn middle(&self) -> Point3<f64> {
        let grid = self.voxels.grid();
        grid.in_metres(&Vector3::from_fn(|axis, _| grid.counts[axis] as f64 / 2.0))
    }

    /// Calls `work` for every node of the stretches with its position and its three places in a vector.
    pub(super) fn for_each_node(&self, mut work: impl FnMut(Point3<f64>, [usize; 3])) {
        let grid = self.voxels.grid();
        for line in 0..self.lines.lines() {
            let (first, length) = self.lines.stretch(line);
            let (j, k) = (line % self.lines.counts[1], line / self.lines.counts[1]);
            let start = self.lines.range(line).start;
            for t in 0..length {
                let node = Vector3::new((first + t) as f64, j as f64, k as f64);
                work(grid.in_metres(&node), [0, 1, 2].map(|component| start + component * length + t));
            }
        }
    }

    /// Place in a vector of a dof of a filled cell.
    #[inline]
    pub(super) fn place(&self, cell: [usize; 3], dof: usize) -> usize {
        let corner = dof / 3;
        self.lines.place([0, 1, 2].map(|axis| cell[axis] + (corner >> axis & 1)), dof % 3)
    }

    /// Adds corner forces of a cell to a vector.
    pub(super) fn scatter(&self, cell: [usize; 3], forces: &SVector<f64, 24>, vector: &mut [f64]) {
        for (dof, force) in forces.iter().enumerate() {
            vector[self.place(cell, dof)] += force;
        }
    }

    /// Displacements of a cell's corners.
    pub(super) fn corners(&self, cell: [usize; 3], vector: &[f64]) -> SVector<f64, 24> {
        SVector::from_fn(|dof, _| vector[self.place(cell, dof)])
    }

    /// The finest grid with the springs of its supports.
    pub(super) fn level(&self, springs: &Springs) -> Level {
        let [nx, ny, nz] = self.voxels.grid().counts;
        let rows = map_in_order(ny * nz, |number| {
            let (j, k) = (number % ny, number / ny);
            CellRow::new(nx, |i| {
                let index = number * nx + i;
                let share = self.stiffness_share(index);
                let held = springs.stiffness([i, j, k]);
                match (self.voxels.content(index), held) {
                    (Content::Empty, _) => CellMakeup::Empty,
                    (Content::Whole, None) => CellMakeup::Share(share as f32),
                    (Content::Whole, Some(held)) => CellMakeup::Own(Box::new(self.element.whole * share + held)),
                    (Content::Cut(moments), held) => {
                        let own = self.element.cut(moments) * share;
                        CellMakeup::Own(Box::new(held.map_or(own, |held| own + held)))
                    }
                }
            })
        });
        Level::new(self.voxels.grid().counts, rows, &self.element.whole, Folds::default())
    }
}
