//! Whether what a job says can be meant.
//!
//! Every number of a job has a row ([`limit::Limit`]) in the file of its table: what is possible, what is usual, where
//! that comes from, and what is likely to have gone wrong. Numbers of one engine are held against each other in
//! [`together`], what goes into the bores of a part in [`fits`], both as rows of one kind ([`pair::Pair`]); the values of a
//! material card have theirs in `crate::material::plausible`. What is impossible is refused with its key and what would be
//! usual; what is possible but unusual is warned of beside the verdict.

pub(super) mod engine;
mod fits;
mod limit;
mod pair;
pub(super) mod part;
pub(super) mod piston;
pub(super) mod places;
pub(super) mod print;
pub(super) mod run;
mod together;

pub(super) use limit::Limit;

use crate::job::error::JobError;
use crate::job::file::Job;
use crate::job::piston::PistonScenario;
use crate::job::scenario::Scenario;
use crate::material::{Card, unusual_values};
use crate::part::{Piston, Rod};

/// An input that is possible but far from what is usual.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Warning {
    /// Its key in the job file; of a value of the material card its name.
    pub key: String,
    /// What is unusual and what would be usual, as a sentence without its full stop.
    pub message: String,
}

/// The tables with a row for every number of a job.
const TABLES: [&[&Limit]; 6] = [engine::ALL, part::ALL, print::ALL, run::ALL, piston::ALL, places::ALL];

/// Key of every number that has a row, with the table it stands in; lists count where the job has entries in them.
pub fn numbers_with_a_row(job: &Job) -> Vec<String> {
    TABLES.into_iter().flatten().flat_map(|limit| limit.keys(job)).collect()
}

/// Refuses the first impossible number of a job and warns of every unusual one.
pub(super) fn numbers(job: &Job) -> Result<Vec<Warning>, JobError> {
    let mut warnings = Vec::new();
    TABLES.into_iter().flatten().try_for_each(|limit| limit.see(job, &mut warnings))?;
    Ok(warnings)
}

/// Warns of unusual values of a card that the user made.
pub(super) fn card(card: &Card) -> impl Iterator<Item = Warning> {
    unusual_values(card)
        .into_iter()
        .map(|unusual| Warning { key: format!("material card: {}", unusual.name), message: unusual.message })
}

impl Scenario {
    /// Sentences on an answer, after those on unusual inputs.
    pub(crate) fn warned(&self, notes: Vec<String>) -> Vec<String> {
        let unusual = self.warnings.iter().map(|warning| format!("Unusual input: {}.", warning.message));
        unusual.chain(notes).collect()
    }

    /// Refuses a job that cannot be this rod's and adds warnings of what hardly is.
    pub(crate) fn beside_rod(&mut self, rod: &Rod) -> Result<(), JobError> {
        fits::rings_fit(self, rod)?;
        let mut pairs = fits::rod(self, rod);
        pairs.extend(together::pairs(self, rod.center_distance));
        pairs.iter().try_for_each(|pair| pair.see(&mut self.warnings))
    }

    /// The same of a piston.
    pub(crate) fn beside_piston(&mut self, given: &PistonScenario, piston: &Piston) -> Result<(), JobError> {
        let mut pairs = fits::piston(self, given, piston);
        pairs.extend(together::pairs(self, given.rod_length));
        pairs.iter().try_for_each(|pair| pair.see(&mut self.warnings))
    }
}
