//! Counting, lives and scatter against standards, closed forms and a general library.

use std::error::Error;

use layload_core::life::{Cycle, LifeError, RainflowScratch, rainflow, rainflow_repeating};

mod bearing;
mod kinetic;
mod link;
mod mean_stress;
mod miner;
mod rainflow_astm;
mod rainflow_reference;
mod rainflow_repeating;
mod rolling;
mod scatter;
mod stress_life;
mod weakest_link;

/// ASTM E1049-85, 5.4.4: history A to I.
pub(crate) const E1049_HISTORY: [f64; 9] = [-2.0, 1.0, -3.0, 5.0, -1.0, 3.0, -4.0, 4.0, -2.0];

type Tested = Result<(), Box<dyn Error>>;

fn counted(history: &[f64]) -> Result<Vec<Cycle>, LifeError> {
    let mut cycles = Vec::new();
    rainflow(history, &mut RainflowScratch::default(), |cycle| cycles.push(cycle))?;
    Ok(cycles)
}

fn counted_repeating(period: &[f64]) -> Result<Vec<Cycle>, LifeError> {
    let mut cycles = Vec::new();
    rainflow_repeating(period, &mut RainflowScratch::default(), |cycle| cycles.push(cycle))?;
    Ok(cycles)
}

/// Turning points of a history, ends included, found the plain way: no equal neighbours, no point on a slope.
fn turning_points(history: &[f64]) -> Vec<f64> {
    let mut distinct = history.to_vec();
    distinct.dedup();
    let last = distinct.len().saturating_sub(1);
    let turns = |i: usize| i == 0 || i == last || (distinct[i] > distinct[i - 1]) != (distinct[i + 1] > distinct[i]);
    (0..distinct.len()).filter(|&i| turns(i)).map(|i| distinct[i]).collect()
}
