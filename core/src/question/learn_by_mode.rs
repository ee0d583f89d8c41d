//! Learning each strength by its own, from runs whose failure mode is known.

use libm::exp;

use super::check::quick_look;
use super::learn::{LEAST_OPEN, LoggedRun, NINETY, job_of, outcome};
use super::load::PartSource;
use crate::Error;
use crate::bench::{Belief, ByQuantity, ModeLife, ModeRun, Quantity, RunOutcome, by_mode};
use crate::job::{Job, resolve};
use crate::kind::{LoadedPart, Question, Watcher};
use crate::material::Card;
use crate::report::{ModeReport, QuantityReport, Report};
use crate::verdict::Mode;

/// What a log teaches of each quantity.
pub(super) struct EachLearned {
    pub(super) prior: ByQuantity,
    pub(super) posterior: ByQuantity,
    /// The strength that decides what fails first in the part and job in question.
    governing: Quantity,
    /// Modes of runs that the model does not have in the job of that run.
    missing: Vec<Mode>,
}

impl EachLearned {
    /// That strength and life, before and after.
    pub(super) fn governing(&self) -> (Belief, Belief) {
        (self.prior.beside_life(self.governing), self.posterior.beside_life(self.governing))
    }

    /// What the log says that the model has no place for, in sentences.
    pub(super) fn findings(&self) -> Vec<String> {
        let told = |mode: &Mode| {
            format!(
                "A run failed by {}, which the model does not have in the job of that run: nothing is learned from it. Was it printed \
                 another way up than the job says?",
                mode.words()
            )
        };
        let mut list: Vec<String> = self.missing.iter().map(told).collect();
        list.dedup();
        list
    }

    /// Every quantity, and how many failures were by what it decides.
    pub(super) fn report(&self, runs: &[LoggedRun<'_>]) -> Vec<QuantityReport> {
        let range = |belief: &ByQuantity, quantity: Quantity| {
            let (middle, deviation) = (belief.mean[quantity as usize], belief.deviation(quantity));
            [-1.0, 1.0].map(|sign| exp(middle + sign * NINETY * deviation))
        };
        let decides = |quantity: Quantity, run: &&LoggedRun<'_>| {
            let mode = run.entry.mode.filter(|_| run.entry.outcome == RunOutcome::Failed);
            mode.is_some_and(|mode| match quantity {
                Quantity::Life => mode.counts_time(),
                strength => Quantity::strength_of(mode) == Some(strength),
            })
        };
        let of = |quantity: Quantity| QuantityReport {
            name: quantity.words().into(),
            before: self.prior.factor(quantity),
            before_range: range(&self.prior, quantity),
            after: self.posterior.factor(quantity),
            after_range: range(&self.posterior, quantity),
            failures: runs.iter().filter(|run| decides(quantity, run)).count(),
        };
        Quantity::ALL.map(of).into()
    }
}

/// The part and job in question, and what a check says of them.
pub(super) struct Known<'a> {
    pub(super) part: &'a LoadedPart,
    pub(super) question: &'a Question<'a>,
    pub(super) report: &'a Report,
    pub(super) card: &'a Card,
    /// Whether the stress field stands behind the report.
    pub(super) field: bool,
}

impl Known<'_> {
    /// By what factor the field changes the margin of each mode over that by sections: solved once, at the job in question.
    fn raised(&self, watcher: &mut dyn Watcher) -> Result<Vec<(Mode, f64)>, Error> {
        if !self.field {
            return Ok(Vec::new());
        }
        let sections = quick_look(PartSource::Loaded(self.part), self.question, watcher)?;
        let of = |mode: &ModeReport| {
            let own = sections.modes.iter().find(|own| own.mode == mode.mode && own.margin > 0.0)?;
            Some((mode.mode, mode.margin / own.margin))
        };
        Ok(self.report.modes.iter().filter_map(of).collect())
    }
}

/// Learns each quantity, where the failure mode of some run is known. What the card leaves open of each strength is the spread of its own value; of life that of the whole.
pub(super) fn each_learned(
    runs: &[LoggedRun<'_>],
    prior: &Belief,
    known: &Known<'_>,
    watcher: &mut dyn Watcher,
) -> Result<Option<EachLearned>, Error> {
    if runs.iter().all(|run| run.entry.mode.is_none()) {
        return Ok(None);
    }
    let strength = &known.card.strength;
    let spreads = [&strength.bead_mpa, &strength.layer_mpa, &strength.bearing_pressure_mpa]
        .map(|value| value.relative_spread().max(LEAST_OPEN.0));
    let prior = ByQuantity::open([spreads[0], spreads[1], spreads[2], prior.deviations()[1]]);
    let governing = known.report.modes.iter().find_map(|mode| Quantity::strength_of(mode.mode));
    let raised = known.raised(watcher)?;
    let mut asked: Vec<(&LoadedPart, Job, Vec<ModeLife>)> = Vec::new();
    let (mut observed, mut missing) = (Vec::new(), Vec::new());
    for run in runs {
        let job = job_of(run);
        let before = asked.iter().position(|(part, asked, _)| std::ptr::eq(*part, run.part) && *asked == job);
        let place = if let Some(place) = before {
            place
        } else {
            let own = if std::ptr::eq(run.part, known.part) { raised.as_slice() } else { &[] };
            let modes = modes_of(run, &job, own, watcher)?;
            asked.push((run.part, job, modes));
            asked.len() - 1
        };
        let modes = &asked[place].2;
        let lacks = |mode: &Mode| Quantity::strength_of(*mode).is_some() && !modes.iter().any(|of| of.mode == *mode);
        missing.extend(run.entry.mode.filter(lacks));
        observed.push(ModeRun { modes: modes.clone(), outcome: outcome(run.entry), mode: run.entry.mode });
    }
    let posterior = by_mode(&prior, &observed);
    Ok(Some(EachLearned { prior, posterior, governing: governing.unwrap_or(Quantity::Beads), missing }))
}

/// What the model says of the modes of a run, by its sections raised to the field.
fn modes_of(
    run: &LoggedRun<'_>,
    job: &Job,
    raised: &[(Mode, f64)],
    watcher: &mut dyn Watcher,
) -> Result<Vec<ModeLife>, Error> {
    let question = Question { job, ..run.question };
    let (scenario, _) = resolve(job, question.card_text, question.pressure_text)?;
    let report = quick_look(PartSource::Loaded(run.part), &question, watcher)?;
    let card = &scenario.card;
    let (strength, life) = (card.strength.scatter_log10.value, card.fatigue.scatter_log10.value);
    let of = |mode: &ModeReport| {
        let own = ModeLife::of(mode, report.verdict.wanted_life_s, strength, life)?;
        let factor = raised.iter().find(|(of, _)| *of == mode.mode).map_or(1.0, |(_, factor)| *factor);
        Some(own.raised(factor))
    };
    Ok(report.modes.iter().filter_map(of).collect())
}
