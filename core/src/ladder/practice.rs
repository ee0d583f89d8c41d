//! Ladders climbed by parts drawn by chance, to tell what so many parts teach.

use std::collections::BTreeMap;

use libm::{exp, log, pow};
use nalgebra::Vector2;
use rand_pcg::Pcg64;
use rand_pcg::rand_core::Rng;

use super::believed::Believed;
use super::climb::{Climb, Rules};
use super::wear::{Level, Wear};
use crate::bench::Belief;
use crate::life::{Odds, normal_quantile};
use crate::numeric::sort_few;

/// What ladders are climbed with.
#[derive(Debug, Clone, Copy)]
pub struct Practice<'a> {
    /// Levels.
    pub levels: &'a [Level],
    /// How parts wear at them.
    pub wear: &'a Wear,
    /// Rules of the climb.
    pub rules: &'a Rules,
    /// What is believed before the first part: truths are drawn from it.
    pub prior: &'a Belief,
}

/// What is known after some parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AfterParts {
    /// Parts.
    pub parts: usize,
    /// How many times narrower the band of the margin is, the middle of all draws.
    pub narrowed: f64,
    /// Parts broken, on average.
    pub broken: f64,
    /// Draws behind it.
    pub draws: usize,
}

/// A truth: logarithms of strength and life over the card's and the model's.
pub type Truth = (f64, f64);

/// Truths drawn for a plan.
const DRAWS: usize = 12;

/// Seed of the draws.
const SEED: u64 = 28;

impl Practice<'_> {
    /// A truth by chance.
    pub fn truth(&self, draws: &mut Pcg64) -> Truth {
        let covariance = &self.prior.covariance;
        let strength = covariance[(0, 0)].max(0.0).sqrt();
        let joint = if strength > 0.0 { covariance[(0, 1)] / strength } else { 0.0 };
        let life = (covariance[(1, 1)] - joint * joint).max(0.0).sqrt();
        let (a, b) = (normal(draws), normal(draws));
        let off = Vector2::new(strength * a, joint * a + life * b);
        (self.prior.mean[0] + off[0], self.prior.mean[1] + off[1])
    }

    /// Runs one part of a truth up a ladder: the step that breaks it, counted from 0; none where it comes through.
    pub fn run(&self, climb: &Climb, truth: Truth, draws: &mut Pcg64) -> Option<usize> {
        let print = normal(draws);
        let places = self.levels.iter().map(|level| level.link.links().len()).min().unwrap_or(0);
        let lives: Vec<f64> = (0..places).map(|_| normal(draws)).collect();
        let mut damage = vec![0.0; places];
        for (number, step) in climb.steps.iter().enumerate() {
            let link = &self.levels[step.taken.level].link;
            let factor = exp(-truth.0);
            let stress = factor / pow(10.0, print * link.strength_scatter());
            if link.breaks_at_once(factor, stress) {
                return Some(number);
            }
            let median = Odds { deviations: 0.0, strength_scatter: 0.0 };
            for ((sum, of), life) in damage.iter_mut().zip(link.links()).zip(&lives) {
                *sum += step.taken.seconds * of.rates(stress, median).iter().sum::<f64>();
                let bears = truth.1 + life * of.life_scatter() * core::f64::consts::LN_10;
                if log(sum.max(1e-300)) >= bears {
                    return Some(number);
                }
            }
        }
        None
    }

    /// What so many parts teach, each run up a ladder that is planned from what the ones before taught.
    pub fn after_parts(&self, believed: &Believed, first: &Climb, parts: usize) -> Vec<AfterParts> {
        let prior = believed.margin(self.rules.margin, self.rules.exponent);
        // Logs that are the same so far have the same next ladder.
        let mut known_logs: BTreeMap<Vec<Option<usize>>, (Believed, Climb)> = BTreeMap::new();
        known_logs.insert(Vec::new(), (believed.clone(), first.clone()));
        let mut narrowed = vec![Vec::new(); parts];
        let mut broken = vec![0usize; parts];
        for draw in 0..DRAWS {
            let mut draws = seeded(SEED + draw as u64);
            let truth = self.truth(&mut draws);
            let (mut log, mut so_far): (Vec<Option<usize>>, usize) = (Vec::new(), 0);
            for (part, (narrowed, broken)) in narrowed.iter_mut().zip(&mut broken).enumerate() {
                let Some((known, climb)) = known_logs.get(&log) else { break };
                let broke = self.run(climb, truth, &mut draws);
                so_far += usize::from(broke.is_some());
                log.push(broke);
                if !known_logs.contains_key(&log) {
                    let then = climb.after(self.wear, known, broke);
                    let climb =
                        if part + 1 < parts { Climb::plan(self.wear, &then, self.rules) } else { climb.clone() };
                    known_logs.insert(log.clone(), (then, climb));
                }
                let then = known_logs.get(&log).map_or(believed, |(then, _)| then);
                narrowed.push(then.margin(self.rules.margin, self.rules.exponent).narrower_than(&prior));
                *broken += so_far;
            }
        }
        let of = |part: usize| {
            let mut list = narrowed[part].clone();
            sort_few(&mut list, f64::total_cmp);
            AfterParts {
                parts: part + 1,
                narrowed: list.get(DRAWS / 2).copied().unwrap_or(1.0),
                broken: broken[part] as f64 / DRAWS as f64,
                draws: DRAWS,
            }
        };
        (0..parts).map(of).collect()
    }
}

/// Draws of a seed.
pub fn seeded(seed: u64) -> Pcg64 {
    Pcg64::new(u128::from(seed), 0)
}

/// A draw of the standard normal distribution.
pub fn normal(draws: &mut Pcg64) -> f64 {
    let share = ((draws.next_u64() >> 11) as f64 + 0.5) / (1u64 << 53) as f64;
    normal_quantile(share).unwrap_or(0.0)
}
