//! The card that knows a log, and the job that asks with it.

use super::learn_by_mode::EachLearned;
use crate::bench::{Belief, Learned};
use crate::job::Job;
use crate::material::Card;

/// The card that knows the runs: by each quantity where some failure mode is known, else by one factor on all strengths.
pub(super) fn taught(
    card: &Card,
    runs: usize,
    (prior, posterior): (Belief, Belief),
    each: Option<&EachLearned>,
) -> Card {
    let learned = each.map_or_else(
        || Learned::of_two(runs, prior, posterior),
        |each| Learned::of_each(runs, each.prior, each.posterior),
    );
    Card { name: format!("{} after {runs} bench runs", card.name), ..learned.applied(card) }
}

/// A job whose card is handed over with it.
pub(super) fn with_card_of_log(job: &Job) -> Job {
    let mut job = job.clone();
    job.material.name = None;
    job.material.card_file = Some("the card and the bench log".into());
    job
}
