use nalgebra::{Matrix6, Point3, Vector3};

use super::conjugate::{Accuracy, Equations, FEW, History, dot};
use super::error::FieldError;
use super::load::Load;
use super::model::FieldModel;
use super::multigrid::Multigrid;
use super::number::TOGETHER;
use super::recover::Strains;
use super::rigid::RigidMotions;
use super::support::{Springs, Support};

/// A model with its supports, ready to be solved for many loads.
#[derive(Debug, Clone)]
pub struct HeldModel<'a> {
    model: &'a FieldModel,
    springs: Springs,
    grids: Multigrid,
    motions: RigidMotions,
}

/// Displacements under one load.
#[derive(Debug, Clone)]
pub struct Solution {
    pub(super) displacement: Vec<f64>,
    /// How it came about: one history a round of contact, one in all without contact.
    pub histories: Vec<History>,
    /// Where pins push; empty without one-sided supports.
    pub contact: Vec<ContactPoint>,
}

/// A point of a bore that a pin pushes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ContactPoint {
    /// Where, m.
    pub point: Point3<f64>,
    /// Away from the pin's axis.
    pub direction: Vector3<f64>,
    /// Pa.
    pub pressure: f64,
    /// Area it stands for, m².
    pub area: f64,
}

/// Unbalanced share of a load that counts as rounding of the surface and not as a mistake.
const BALANCE: f64 = 1e-3;

/// Unknowns up to which loads are solved together: beyond, their vectors would take more than half a gigabyte.
const ROOM: usize = 900_000;

impl<'a> HeldModel<'a> {
    /// Sets up the grids; without supports the part floats, and loads have to be in balance.
    pub fn new(model: &'a FieldModel, supports: &[Support]) -> Result<Self, FieldError> {
        let springs = Springs::new(model, supports)?;
        Ok(Self::with(model, springs))
    }

    /// Without supports.
    pub(super) fn free(model: &'a FieldModel) -> Self {
        Self::with(model, Springs::default())
    }

    pub(super) fn with(model: &'a FieldModel, springs: Springs) -> Self {
        let floating = RigidMotions::new(model.voxels.grid(), &model.lines, &model.filled, &Matrix6::zeros());
        let resistance = springs.resistance(model, &floating);
        let motions = if resistance.amax() == 0.0 {
            floating
        } else {
            RigidMotions::new(model.voxels.grid(), &model.lines, &model.filled, &resistance)
        };
        let grids = Multigrid::new(model.level(&springs), &motions);
        Self { model, springs, grids, motions }
    }

    /// Grids of the hierarchy.
    pub fn grids(&self) -> usize {
        self.grids.depth()
    }

    /// Cells on all grids that need a matrix of their own, 2.3 kB each.
    pub fn own_cells(&self) -> usize {
        self.grids.own_cells()
    }

    /// Displacements under `load`, from `start` if there is a like solution.
    ///
    /// With a pin in the supports the points that touch are found by solving again until they stay the same.
    pub fn solve(&self, load: &Load, accuracy: &Accuracy, start: Option<&Solution>) -> Result<Solution, FieldError> {
        if self.springs.one_sided() {
            self.settle(load, accuracy, start)
        } else {
            self.solve_once(load, accuracy, start)
        }
    }

    fn solve_once(&self, load: &Load, accuracy: &Accuracy, start: Option<&Solution>) -> Result<Solution, FieldError> {
        let forces = self.forces(load)?;
        let mut displacement = start.map_or_else(|| self.model.lines.zeros(), |solution| solution.displacement.clone());
        let histories = self.equations().solve::<f32, f64>(forces, &mut displacement, accuracy)?;
        Ok(Solution { displacement, histories, contact: Vec::new() })
    }

    /// Displacements under each of several loads; without contact only. Loads are solved several at a time, which takes
    /// far less time than one after the other; the answers are the same to rounding.
    pub fn solve_each(&self, loads: &[&Load], accuracy: &Accuracy) -> Result<Vec<Solution>, FieldError> {
        let mut solutions = Vec::with_capacity(loads.len());
        for part in loads.chunks(TOGETHER) {
            if self.springs.one_sided() || part.len() < FEW || self.model.lines.len() > ROOM {
                for load in part {
                    solutions.push(self.solve(load, accuracy, None)?);
                }
                continue;
            }
            let forces = part.iter().map(|load| self.forces(load)).collect::<Result<Vec<_>, _>>()?;
            for (displacement, history) in self.equations().solve_each(forces, accuracy)? {
                solutions.push(Solution { displacement, histories: vec![history], contact: Vec::new() });
            }
        }
        Ok(solutions)
    }

    /// Motions of the whole part, of six, that no support resists.
    pub fn free_motions(&self) -> usize {
        self.motions.count()
    }

    fn equations(&self) -> Equations<'_> {
        Equations { grids: &self.grids, motions: &self.motions, filled: &self.model.filled }
    }

    /// Forces of a load and of the springs; an error where nothing balances the load.
    fn forces(&self, load: &Load) -> Result<Vec<f64>, FieldError> {
        let lines = &self.model.lines;
        let mut forces = load.forces.clone();
        let size = dot(lines, &forces, &forces).sqrt();
        let mut balanced = forces.clone();
        self.motions.remove(lines, &self.model.filled, &mut balanced);
        balanced.iter_mut().zip(&forces).for_each(|(b, f)| *b -= f);
        let unbalanced = dot(lines, &balanced, &balanced).sqrt();
        // Spread over all nodes, what is missing looks small beside forces on few of them: it is compared as a sum.
        let resultant = unbalanced * libm::sqrt(self.model.unknowns() as f64 / 3.0);
        let whole: f64 = forces.iter().map(|force| force.abs()).sum();
        if size > 0.0 && resultant > BALANCE * whole {
            return Err(FieldError::OutOfBalance { share: resultant / whole });
        }
        self.springs.add_forces(self.model, &mut forces);
        Ok(forces)
    }

    fn settle(&self, load: &Load, accuracy: &Accuracy, start: Option<&Solution>) -> Result<Solution, FieldError> {
        const ROUNDS: usize = 40;
        let model = self.model;
        let mut springs = self.springs.clone();
        let mut last = start.cloned();
        if let Some(start) = start {
            springs.choose(|cell, spring| spring.reach.dot(&model.corners(*cell, &start.displacement)) < spring.slack);
        } else {
            // The part moves with its load until the pin stops it: the far side of the bore touches first.
            let along = load.resultant(model);
            let size = along.norm();
            springs.choose(|_, spring| spring.direction.dot(&along) < -0.5 * size);
        }
        let mut histories = Vec::new();
        for _ in 0..ROUNDS {
            let held = HeldModel::with(model, springs.clone());
            let mut solution = held.solve_once(load, accuracy, last.as_ref())?;
            histories.append(&mut solution.histories);
            let u = &solution.displacement;
            let changed = springs.choose(|cell, spring| spring.reach.dot(&model.corners(*cell, u)) < spring.slack);
            if changed == 0 {
                solution.histories = histories;
                solution.contact = springs
                    .by_cell
                    .iter()
                    .flat_map(|(cell, list)| list.iter().map(move |spring| (cell, spring)))
                    .filter(|(_, spring)| spring.one_sided && spring.active)
                    .map(|(cell, spring)| {
                        let give = spring.slack - spring.reach.dot(&model.corners(*cell, &solution.displacement));
                        ContactPoint {
                            point: spring.point,
                            direction: spring.direction,
                            pressure: give * spring.stiffness / spring.area,
                            area: spring.area,
                        }
                    })
                    .collect();
                return Ok(solution);
            }
            last = Some(solution);
        }
        Err(FieldError::ContactNotSettled { rounds: ROUNDS })
    }

    /// Strains of a solution for `load`, from which stresses at any point of the surface follow.
    pub fn strains(&self, solution: &Solution, load: &Load) -> Strains<'a> {
        Strains::new(self.model, solution, load)
    }
}

impl Solution {
    /// Displacements, one entry a place of the model's vectors, m.
    pub fn displacements(&self) -> &[f64] {
        &self.displacement
    }

    /// `factor` times this solution plus `other`; for solutions without contact only.
    #[must_use]
    pub fn plus(mut self, other: &Self, factor: f64) -> Self {
        self.displacement.iter_mut().zip(&other.displacement).for_each(|(a, b)| *a += factor * b);
        self.histories.extend(other.histories.iter().cloned());
        self
    }

    /// Iterations of all rounds.
    pub fn iterations(&self) -> usize {
        self.histories.iter().map(History::iterations).sum()
    }

    /// Residual over the load at the end.
    pub fn residual(&self) -> f64 {
        self.histories.last().map_or(0.0, History::residual)
    }

    /// Displacement of a point of the part, m.
    pub fn displacement(&self, model: &FieldModel, point: &Point3<f64>) -> Option<Vector3<f64>> {
        let middle =
            model.voxels.grid().in_metres(&Vector3::from_fn(|a, _| model.voxels.grid().counts[a] as f64 / 2.0));
        let cell = model.voxels.cell_near(point, &(middle - point))?;
        let at = model.voxels.grid().in_cells(point);
        let local = Vector3::from_fn(|axis, _| 2.0 * (at[axis] - cell[axis] as f64) - 1.0);
        let corners = model.corners(cell, &self.displacement);
        let weights = super::element::shape(&local);
        Some(Vector3::from_fn(|component, _| (0..8).map(|c| weights[c] * corners[3 * c + component]).sum()))
    }
}
