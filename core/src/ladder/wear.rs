use libm::{exp, log, pow};

use super::believed::Believed;
use crate::life::{Odds, WeakestLink, normal_probability};
use crate::numeric::map_in_order;

/// One level of running, and what the model says of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Level {
    /// Share of the duty's speed and throttle.
    pub share: f64,
    /// Speed, rpm.
    pub rpm: f64,
    /// Throttle, 0 to 1.
    pub throttle: f64,
    /// All places that can fail in it, with their scatter.
    pub link: WeakestLink,
}

/// Some running at one level: its index and how long, s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taken {
    /// Which level.
    pub level: usize,
    /// How long, s.
    pub seconds: f64,
}

/// Strengths of prints that are looked at: standard deviations from the mean, evenly.
const PRINTS: usize = 25;
const REACH: f64 = 4.5;

/// How prints of each strength wear at each level, for each strength that is believed: worked out once.
#[derive(Debug, Clone)]
pub struct Wear {
    /// By level, column of the belief and print: for each place the logarithm of the damage a second; none where it breaks at once.
    rates: Vec<Vec<Vec<Option<Vec<f64>>>>>,
    /// Share of each print.
    shares: Vec<f64>,
    /// For each place the standard deviation of the natural logarithm of life.
    scatters: Vec<f64>,
}

impl Wear {
    /// Of levels, for what is believed.
    pub fn new(levels: &[Level], believed: &Believed) -> Self {
        let scores: Vec<f64> = (0..PRINTS).map(|k| REACH * (2.0 * k as f64 / (PRINTS - 1) as f64 - 1.0)).collect();
        let weights: Vec<f64> = scores.iter().map(|score| exp(-0.5 * score * score)).collect();
        let sum: f64 = weights.iter().sum();
        let places = levels.iter().map(|level| level.link.links().len()).min().unwrap_or(0);
        let scatters = levels.first().map_or_else(Vec::new, |level| {
            let links = level.link.links().iter().take(places);
            links.map(|link| (link.life_scatter() * core::f64::consts::LN_10).max(1e-3)).collect()
        });
        let rates = map_in_order(levels.len(), |k| {
            let link = &levels[k].link;
            let column = |strength: &f64| {
                let factor = exp(-strength);
                scores.iter().map(|score| print(link, factor, *score, places)).collect()
            };
            believed.strengths.iter().map(column).collect()
        });
        Self { rates, shares: weights.into_iter().map(|weight| weight / sum).collect(), scatters }
    }

    /// For each pair that is believed, the share of prints that survive some running in a row.
    pub fn survive(&self, run: &[Taken], believed: &Believed) -> Vec<f64> {
        let columns = map_in_order(believed.strengths.len(), |column| {
            let prints: Vec<Option<Vec<f64>>> = (0..PRINTS).map(|print| self.worn(run, column, print)).collect();
            let left = |life: &f64| {
                let of = |(worn, share): (&Option<Vec<f64>>, &f64)| {
                    worn.as_ref().map_or(0.0, |worn| {
                        let places = worn.iter().zip(&self.scatters);
                        share
                            * places.map(|(worn, scatter)| normal_probability((life - worn) / scatter)).product::<f64>()
                    })
                };
                prints.iter().zip(&self.shares).map(of).sum::<f64>()
            };
            believed.lives[column].iter().map(left).collect::<Vec<f64>>()
        });
        columns.concat()
    }

    /// For each place the logarithm of the damage of a print after some running; none where it broke at once.
    fn worn(&self, run: &[Taken], column: usize, print: usize) -> Option<Vec<f64>> {
        let mut sums = vec![0.0; self.scatters.len()];
        for taken in run {
            let rates = self.rates.get(taken.level)?[column][print].as_ref()?;
            for (sum, rate) in sums.iter_mut().zip(rates) {
                *sum += taken.seconds * exp(*rate);
            }
        }
        Some(sums.into_iter().map(|sum| log(sum.max(1e-300))).collect())
    }
}

/// Logarithms of the damage a second at each place of one print, all stress times `factor`; none where it breaks at once.
fn print(link: &WeakestLink, factor: f64, score: f64, places: usize) -> Option<Vec<f64>> {
    let stress = factor / pow(10.0, score * link.strength_scatter());
    if link.breaks_at_once(factor, stress) {
        return None;
    }
    let median = Odds { deviations: 0.0, strength_scatter: 0.0 };
    let rate = |link: &crate::life::Link| log(link.rates(stress, median).iter().sum::<f64>().clamp(1e-300, 1e300));
    Some(link.links().iter().take(places).map(rate).collect())
}
