use std::collections::BTreeMap;
use std::sync::OnceLock;

use nalgebra::Vector6;

use super::conjugate::{Accuracy, Equations};
use super::error::FieldError;
use super::held::{HeldModel, Solution};
use super::lines::{Fold, Folds};
use super::load::{Footprint, Load};
use super::mirror::{Folded, folds, mirrors};
use super::model::FieldModel;
use super::number::TOGETHER;
use super::relief::InertiaRelief;
use super::support::Support;
use crate::numeric::{map_in_order, workers};

/// A part ready to be solved for many loads. Without supports each is balanced by the part's own inertia, and where the part
/// mirrors itself across a plane, and a load does so too or is the reverse of its mirror image, half of it is solved; with two
/// such planes a quarter.
#[derive(Debug)]
pub struct FreeModel<'a> {
    model: &'a FieldModel,
    /// Nothing where supports balance the loads.
    relief: Option<InertiaRelief>,
    mirrors: [bool; 3],
    folded: BTreeMap<Folds, Folded<'a>>,
    whole: OnceLock<HeldModel<'a>>,
}

/// How a part moves under a load, as it was solved: of the whole part or of half or a quarter of it.
#[derive(Debug, Clone)]
pub struct FreeSolution {
    folds: Folds,
    solved: Solution,
    /// Accelerations of the part: three shifts, m/s², and three turns about the middle of the box, rad/s².
    pub accelerations: Vector6<f64>,
}

/// Loads that mirror themselves alike, by their numbers; at most [`TOGETHER`].
struct Batch {
    folds: Folds,
    loads: Vec<usize>,
}

/// Unknowns up to which two batches are solved side by side: beyond, their vectors would take half a gigabyte.
const ROOM: usize = 450_000;

impl<'a> FreeModel<'a> {
    /// Of a model with the density of its solid material, kg/m³.
    pub fn new(model: &'a FieldModel, density: f64) -> Result<Self, FieldError> {
        let relief = InertiaRelief::new(model, density)?;
        let (mirrors, relief) = (mirrors(model), Some(relief));
        Ok(Self { model, relief, mirrors, folded: BTreeMap::new(), whole: OnceLock::new() })
    }

    /// The same part held by supports that push and pull and leave it no motion as a whole.
    pub fn held(model: &'a FieldModel, supports: &[Support]) -> Result<Self, FieldError> {
        let whole = OnceLock::from(HeldModel::new(model, supports)?);
        Ok(Self { model, relief: None, mirrors: [false; 3], folded: BTreeMap::new(), whole })
    }

    /// Axes square to planes in which the part mirrors itself.
    pub fn mirrors(&self) -> [bool; 3] {
        self.mirrors
    }

    /// Displacements under each load. `before` is told the numbers of the loads that are solved next, and whether to go on
    /// is its answer; where it is no, `None`.
    pub fn solve_each(
        &mut self,
        loads: &[Footprint],
        accuracy: &Accuracy,
        mut before: impl FnMut(&[usize]) -> bool,
    ) -> Result<Option<Vec<FreeSolution>>, FieldError> {
        let found = map_in_order(loads.len(), |n| match &self.relief {
            Some(relief) => (folds(self.model, &loads[n], self.mirrors), relief.accelerations(self.model, &loads[n])),
            None => ([Fold::None; 3], Vector6::zeros()),
        });
        let (found, accelerations): (Vec<Folds>, Vec<Vector6<f64>>) = found.into_iter().unzip();
        let mut alike: BTreeMap<Folds, Vec<usize>> = BTreeMap::new();
        for (number, folds) in found.into_iter().enumerate() {
            alike.entry(folds).or_default().push(number);
        }
        let new = |folds: &Folds| *folds != [Fold::None; 3] && !self.folded.contains_key(folds);
        let new: Vec<Folds> = alike.keys().copied().filter(new).collect();
        if let Some(relief) = &self.relief {
            let folded = map_in_order(new.len(), |n| Folded::new(self.model, relief, new[n]));
            self.folded.extend(new.into_iter().zip(folded));
        }
        let batches: Vec<Batch> = alike
            .iter()
            .flat_map(|(&folds, loads)| loads.chunks(TOGETHER).map(move |loads| Batch { folds, loads: loads.to_vec() }))
            .collect();
        let mut solutions: Vec<Option<FreeSolution>> = loads.iter().map(|_| None).collect();
        let beside = if self.model.lines.len() > ROOM { 1 } else { workers() };
        for round in batches.chunks(beside) {
            let numbers: Vec<usize> = round.iter().flat_map(|batch| batch.loads.iter().copied()).collect();
            if !before(&numbers) {
                return Ok(None);
            }
            let solved = map_in_order(round.len(), |n| {
                let Batch { folds, loads: numbers } = &round[n];
                let some: Vec<_> = numbers.iter().map(|&number| (&loads[number], &accelerations[number])).collect();
                match self.folded.get(folds) {
                    Some(folded) => folded.solve_each(&some, accuracy),
                    None => self.solve_whole(&some, accuracy),
                }
            });
            for (batch, solved) in round.iter().zip(solved) {
                for (&number, solved) in batch.loads.iter().zip(solved?) {
                    let accelerations = accelerations[number];
                    solutions[number] = Some(FreeSolution { folds: batch.folds, solved, accelerations });
                }
            }
        }
        Ok(Some(solutions.into_iter().flatten().collect()))
    }

    /// Displacements of the whole part, but for those as one body.
    pub fn whole(&self, solution: &FreeSolution) -> Solution {
        match self.folded.get(&solution.folds) {
            Some(folded) => Solution {
                displacement: folded.unfold(&solution.solved.displacement),
                histories: solution.solved.histories.clone(),
                contact: Vec::new(),
            },
            None => solution.solved.clone(),
        }
    }

    fn solve_whole(
        &self,
        loads: &[(&Footprint, &Vector6<f64>)],
        accuracy: &Accuracy,
    ) -> Result<Vec<Solution>, FieldError> {
        let balanced: Vec<Load> = loads
            .iter()
            .map(|(load, _)| {
                let load = load.load(self.model);
                match &self.relief {
                    Some(relief) => relief.balanced(self.model, load),
                    None => load,
                }
            })
            .collect();
        let whole = self.whole.get_or_init(|| HeldModel::free(self.model));
        whole.solve_each(&balanced.iter().collect::<Vec<_>>(), accuracy)
    }
}

impl Folded<'_> {
    /// Displacements of the folded part under loads that mirror themselves, at most [`TOGETHER`], with their accelerations.
    fn solve_each(
        &self,
        loads: &[(&Footprint, &Vector6<f64>)],
        accuracy: &Accuracy,
    ) -> Result<Vec<Solution>, FieldError> {
        let equations = Equations { grids: &self.grids, motions: &self.motions, filled: &self.filled };
        let forces = loads.iter().map(|(load, accelerations)| self.fold(load, accelerations)).collect();
        let solved = equations.solve_each(forces, accuracy)?;
        let solution = |(displacement, history): (Vec<f64>, _)| Solution {
            displacement,
            histories: vec![history],
            contact: Vec::new(),
        };
        Ok(solved.into_iter().map(solution).collect())
    }
}
