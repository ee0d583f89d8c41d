use std::sync::Arc;

use nalgebra::{Matrix3, Matrix6, Vector3, Vector6};

/// How stiff material is along x, over its stiffness elsewhere: warmth softens a crown from one side.
///
/// Linear between the places given and even beyond them; none given is 1 everywhere.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Softness {
    table: Arc<[(f64, f64)]>,
}

/// A stiffness of nothing would leave cells without a place; rubber has about so much left.
const LEAST: f64 = 1e-4;

impl Softness {
    /// From places along x in rising order, m, and the share of stiffness at each.
    pub fn new(table: impl IntoIterator<Item = (f64, f64)>) -> Self {
        Self { table: table.into_iter().map(|(x, share)| (x, share.max(LEAST))).collect() }
    }

    /// The share at a place, m.
    pub fn at(&self, x: f64) -> f64 {
        let after = self.table.partition_point(|&(place, _)| place <= x);
        match (after.checked_sub(1).map(|k| self.table[k]), self.table.get(after)) {
            (Some((from, low)), Some(&(to, high))) => low + (x - from) / (to - from) * (high - low),
            (Some((_, end)), None) | (None, Some(&(_, end))) => end,
            (None, None) => 1.0,
        }
    }
}

/// A model's softness with its stiffness.
///
/// Where stiffness changes steeply along x, strains out of that direction and tractions across it still change evenly: these
/// six are what cells are joined by, and give strain and stress of a point by its own stiffness.
#[derive(Debug, Clone)]
pub(super) struct Softened {
    softness: Softness,
    matrix: Matrix6<f64>,
    /// From tractions across x to the strains that make them.
    inverse: Matrix3<f64>,
}

/// Components that are tractions across x, and those that are strains out of it.
const ACROSS: [usize; 3] = [0, 4, 5];
const WITHIN: [usize; 3] = [1, 2, 3];

impl Softened {
    /// `None` where the stiffness is the same everywhere.
    pub(super) fn new(softness: Softness, matrix: &Matrix6<f64>) -> Option<Self> {
        let even = softness.table.iter().all(|&(_, share)| share == 1.0);
        let across = Matrix3::from_fn(|r, c| matrix[(ACROSS[r], ACROSS[c])]);
        let inverse = across.try_inverse().filter(|_| !even)?;
        Some(Self { softness, matrix: *matrix, inverse })
    }

    /// Share of stiffness at a place along x, m.
    pub(super) fn at(&self, x: f64) -> f64 {
        self.softness.at(x)
    }

    /// From strains at a place to what changes evenly.
    pub(super) fn even(&self, strain: &Vector6<f64>, x: f64) -> Vector6<f64> {
        let stress = self.matrix * strain * self.at(x);
        let mut mixed = *strain;
        for k in ACROSS {
            mixed[k] = stress[k];
        }
        mixed
    }

    /// The strains at a place with what changes evenly.
    pub(super) fn strain(&self, mixed: &Vector6<f64>, x: f64) -> Vector6<f64> {
        let share = self.at(x);
        let missing = Vector3::from_fn(|r, _| {
            let within: f64 = WITHIN.iter().map(|&k| self.matrix[(ACROSS[r], k)] * mixed[k]).sum();
            mixed[ACROSS[r]] / share - within
        });
        let across = self.inverse * missing;
        let mut strain = *mixed;
        for (k, &component) in ACROSS.iter().enumerate() {
            strain[component] = across[k];
        }
        strain
    }
}
