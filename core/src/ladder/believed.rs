use libm::exp;

use super::band::{Band, band};
use crate::bench::Belief;

/// Points of the grid along strength and along life.
const STRENGTHS: usize = 21;
const LIVES: usize = 11;

/// How many standard deviations the grid reaches.
const REACH: f64 = 3.6;

/// Weights for pairs of the logarithms of two factors: strength over the card's, life over the model's. Each column has one
/// strength.
#[derive(Debug, Clone, PartialEq)]
pub struct Believed {
    /// Logarithm of strength of each column.
    pub(super) strengths: Vec<f64>,
    /// Logarithms of life of each column.
    pub(super) lives: Vec<Vec<f64>>,
    /// Weights by column and row; they add up to 1.
    pub(super) weights: Vec<f64>,
}

impl Believed {
    /// A normal belief on a grid along its axes.
    pub fn of(belief: &Belief) -> Self {
        let covariance = &belief.covariance;
        let strength = covariance[(0, 0)].max(1e-12).sqrt();
        let joint = covariance[(0, 1)] / strength;
        let life = (covariance[(1, 1)] - joint * joint).max(1e-12).sqrt();
        let score = |k: usize, count: usize| REACH * (2.0 * k as f64 / (count - 1) as f64 - 1.0);
        let (mut strengths, mut lives, mut weights) = (Vec::new(), Vec::new(), Vec::new());
        for column in 0..STRENGTHS {
            let first = score(column, STRENGTHS);
            strengths.push(belief.mean[0] + strength * first);
            let mut of_column = Vec::new();
            for row in 0..LIVES {
                let second = score(row, LIVES);
                of_column.push(belief.mean[1] + joint * first + life * second);
                weights.push(exp(-0.5 * (first * first + second * second)));
            }
            lives.push(of_column);
        }
        let mut believed = Self { strengths, lives, weights };
        believed.evened();
        believed
    }

    /// The same of parts whose strength is greater by a factor, given as its logarithm.
    #[must_use]
    pub fn stronger(&self, ln_factor: f64) -> Self {
        let mut stronger = self.clone();
        stronger.strengths.iter_mut().for_each(|strength| *strength += ln_factor);
        stronger
    }

    /// How many pairs there are.
    pub fn len(&self) -> usize {
        self.weights.len()
    }

    /// Whether there are none; there always are.
    pub fn is_empty(&self) -> bool {
        self.weights.is_empty()
    }

    /// The logarithms of strength and of life of a pair.
    pub fn pair(&self, index: usize) -> (f64, f64) {
        let (column, row) = (index / LIVES, index % LIVES);
        (self.strengths[column], self.lives[column][row])
    }

    /// The pair up to which a share of all weights lies: a truth drawn by chance.
    pub fn drawn(&self, share: f64) -> usize {
        let mut sum = 0.0;
        let found = self.weights.iter().position(|weight| {
            sum += weight;
            sum >= share
        });
        found.unwrap_or(self.len() - 1)
    }

    /// Makes the weights add up to 1; where nothing is left of them, all pairs count alike.
    fn evened(&mut self) {
        let sum: f64 = self.weights.iter().sum();
        let even = 1.0 / self.len() as f64;
        for weight in &mut self.weights {
            *weight = if sum > 0.0 { *weight / sum } else { even };
        }
    }

    /// With the likelihood of what was seen, one for each pair.
    #[must_use]
    pub fn knowing(&self, likelihood: impl Fn(usize) -> f64) -> Self {
        let mut knowing = self.clone();
        for (index, weight) in knowing.weights.iter_mut().enumerate() {
            // What the model holds for impossible is not, quite: one run in a thousand million is of another kind.
            *weight *= likelihood(index).max(0.0) + 1e-9;
        }
        knowing.evened();
        knowing
    }

    /// Mean of a number over what is believed.
    pub fn mean(&self, of: impl Fn(usize) -> f64) -> f64 {
        self.weights.iter().enumerate().map(|(index, weight)| weight * of(index)).sum()
    }

    /// Where 90 % of the margin at the duty lies, and its middle. `middle` is the margin as the model has it, `exponent` the power of
    /// strength with which life rises there.
    pub fn margin(&self, middle: f64, exponent: f64) -> Band {
        let of = |index: usize| {
            let (strength, life) = self.pair(index);
            middle * exp(strength + life / exponent)
        };
        band((0..self.len()).map(|index| (of(index), self.weights[index])).collect())
    }
}
