//! From a bench log to what it teaches, and to a card that knows it.

use libm::{exp, log};

use super::check::{answered, check_with};
use super::learn_by_mode::{EachLearned, Known, each_learned};
use super::learned_card::{taught, with_card_of_log};
use super::learned_laws::Laws;
use super::load::PartSource;
use crate::Error;
use crate::bench::{Belief, BenchEntry, BenchError, Evidence, Outcome, RunOutcome, updated};
use crate::coupon::chi_squared_probability;
use crate::diagnosis::region_of;
use crate::job::{Job, resolve};
use crate::kind::{CheckRequest, Checked, LoadedPart, Question, Stage, Warm, Watcher, stage};
use crate::life::{WeakestLink, normal_probability, normal_quantile};
use crate::material::{Bears, Card};
use crate::report::{
    CAUTIONS, FactorsReport, LearnReport, LearnedLifeReport, LearnedRunReport, Report, SCHEMA_VERSION,
    UncertaintyReport,
};
use crate::verdict::FieldRequest;

/// A run with the part that ran and the job it ran in.
#[derive(Debug, Clone, Copy)]
pub struct LoggedRun<'a> {
    /// The run.
    pub entry: &'a BenchEntry,
    /// The part.
    pub part: &'a LoadedPart,
    /// Its job; steps and temperature are taken from the run.
    pub question: Question<'a>,
}

/// Standard deviations either side that hold 90 % of a normal distribution.
pub(super) const NINETY: f64 = 1.644_853_626_951_472_7;

/// A log less likely than this under the model disagrees with it.
const BEYOND_CHANCE: f64 = 0.01;

/// No card is so well known that strength, and life at one strength, are not open by this much (standard deviation of the
/// logarithm): another spool, another day.
pub(super) const LEAST_OPEN: (f64, f64) = (0.05, 0.25);

/// Learns from runs what they say of the part and the job in question; gives the card that knows it too.
///
/// With a `field` the part is checked by its stress field before and after, and what the model says of each run is that of its
/// part's sections raised to a field: one solution for each part and way of printing it. Without, all is by sections alone.
///
/// # Errors
///
/// Where there are no runs, or a run is of a part or a job that cannot be checked.
///
/// ```
/// use layload_core::bench::read_log;
/// use layload_core::job::Job;
/// use layload_core::{LoggedRun, Question, learn, load};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// # let question = Question { job: &job, card_text: None, pressure_text: None };
/// let part = load(&stl, &job, &mut ())?;
/// let log = r#"{"family":"rods","outcome":"survived","steps":[{"rpm":5000.0,"throttle":1.0,"seconds":600.0}]}"#;
/// let (entries, _) = read_log(&format!("{log}\n"))?;
/// let runs: Vec<_> = entries.iter().map(|entry| LoggedRun { entry, part: &part, question }).collect();
/// let (learned, card) = learn(&part, &question, "rods", &runs, None, &mut ())?;
/// assert_eq!(learned.runs, 1);
/// println!("{}", card.name);
/// # Ok(())
/// # }
/// ```
pub fn learn(
    part: &LoadedPart,
    question: &Question<'_>,
    family: &str,
    runs: &[LoggedRun<'_>],
    field: Option<FieldRequest>,
    watcher: &mut dyn Watcher,
) -> Result<(LearnReport, Card), Error> {
    if runs.is_empty() {
        return Err(BenchError::NoRuns { family: family.into(), known: Vec::new() }.into());
    }
    let request = CheckRequest { facets: false, field };
    let correct = |warm: &dyn Warm, _: &Report| field.map(|_| warm.correction()).transpose();
    let (Checked { report: before, .. }, correction) = answered(part, question, &request, watcher, correct)?;
    let (scenario, _) = resolve(question.job, question.card_text, question.pressure_text)?;
    let mut laws = Laws::new(field);
    if let Some(correction) = &correction? {
        laws.solved(part, question, scenario.stations, correction);
    }
    let own = laws.of_job(part, question, watcher)?;
    let exponent = steepness(&laws.found[own].0);
    let prior = open(&before.uncertainty, exponent);
    stage(watcher, Stage::Assessing)?;
    for run in runs {
        let job = job_of(run);
        let law = laws.of_job(run.part, &Question { job: &job, ..run.question }, watcher)?;
        laws.of_run.push(law);
    }
    let models: Vec<&(WeakestLink, String)> = laws.of_run.iter().map(|&law| &laws.found[law]).collect();
    let outcomes: Vec<Outcome> = runs.iter().map(|run| outcome(run.entry)).collect();
    let weighed: Vec<(Evidence<'_>, Outcome)> =
        outcomes.iter().enumerate().map(|(k, outcome)| (Evidence::Link(&models[k].0), *outcome)).collect();
    let posterior = updated(&prior, &weighed);
    let known = Known { part, question, report: &before, card: &scenario.card, field: field.is_some() };
    let of_each = each_learned(runs, &prior, &known, watcher)?;
    let (told_prior, told) = of_each.as_ref().map_or((prior, posterior), EachLearned::governing);
    let card = taught(&scenario.card, runs.len(), (prior, posterior), of_each.as_ref());
    let card_text = card.to_toml().map_err(crate::job::JobError::from)?;
    let job = with_card_of_log(question.job);
    let knowing = Question { job: &job, card_text: Some(&card_text), pressure_text: question.pressure_text };
    let after = check_with(PartSource::Loaded(part), &knowing, &request, watcher)?.report;
    let chance = chance_of_log(&weighed, (&prior, &posterior), exponent);
    let entries: Vec<LearnedRunReport> =
        runs.iter().zip(&models).map(|(run, (link, place))| entry_report(run.entry, link, place, &told)).collect();
    let scatter_chance = scatter_chance(runs, &models, &told);
    let failures = runs.iter().filter(|run| run.entry.outcome == RunOutcome::Failed).count();
    let mut findings = findings(part.part.regions(), &told, exponent, chance, scatter_chance, &entries, failures);
    findings.extend(of_each.iter().flat_map(EachLearned::findings));
    let report = LearnReport {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        family: family.into(),
        runs: runs.len(),
        failures,
        before: factors(&told_prior),
        after: factors(&told),
        quantities: of_each.as_ref().map_or_else(Vec::new, |each| each.report(runs)),
        warnings: before.warnings.clone(),
        life_before: life(&before),
        life_after: life(&after),
        chance,
        disagrees: chance < BEYOND_CHANCE || scatter_chance.is_some_and(|chance| chance < BEYOND_CHANCE),
        scatter_chance,
        findings,
        entries,
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    };
    Ok((report, card))
}

/// The job of a run: its steps and its temperature in place of the job's own.
pub(super) fn job_of(run: &LoggedRun<'_>) -> Job {
    let mut job = run.question.job.clone();
    job.duty.steps = Some(run.entry.steps.clone());
    if run.entry.temperature_c.is_some() {
        job.material.temperature_c = run.entry.temperature_c;
    }
    job
}

pub(super) fn outcome(entry: &BenchEntry) -> Outcome {
    match (entry.outcome, entry.sound_s) {
        (RunOutcome::Survived, _) => Outcome::Survived(entry.seconds()),
        (RunOutcome::Failed, Some(sound)) => Outcome::FailedBetween(sound, entry.seconds()),
        (RunOutcome::Failed, None) => Outcome::FailedAt(entry.seconds()),
    }
}

/// Power of strength with which the life that half reach rises, as measured on the model.
pub(super) fn steepness(link: &WeakestLink) -> f64 {
    const STEP: f64 = 0.03;
    let (low, high) = (link.life_at(0.5, exp(STEP)), link.life_at(0.5, exp(-STEP)));
    let slope = log(high / low) / (2.0 * STEP);
    // A part that fails at once, or never, has none: any usual exponent serves there.
    if slope.is_finite() && slope > 1.0 { slope.min(40.0) } else { 10.0 }
}

/// What the card leaves open, from what each of its values does to the margin.
pub(super) fn open(uncertainty: &UncertaintyReport, exponent: f64) -> Belief {
    let (mut strength, mut life) = (0.0, 0.0);
    for influence in &uncertainty.influences {
        let change = log(influence.margin_factor.max(1e-9));
        let sum = match influence.bears {
            Bears::Life => &mut life,
            Bears::Strength => &mut strength,
        };
        *sum += change * change;
    }
    Belief::open(f64::sqrt(strength).max(LEAST_OPEN.0), (f64::sqrt(life) * exponent).max(LEAST_OPEN.1))
}

/// Probability of a log at least as far out: of two looks at it, the second at each of its runs, the least of several chances,
/// times how many there are.
fn chance_of_log(weighed: &[(Evidence<'_>, Outcome)], (prior, posterior): (&Belief, &Belief), exponent: f64) -> f64 {
    let apart = weighed.iter().map(|(evidence, outcome)| apart(evidence, *outcome, prior)).fold(1.0, f64::min);
    let each = (apart * weighed.len() as f64).min(1.0);
    (2.0 * chance_of(prior, posterior, exponent).min(each)).min(1.0)
}

/// Two-sided probability of a shift of the middle life at least this great: before the log is seen, the posterior's mean is
/// normal about the prior's with the variance that the log takes away.
fn chance_of(prior: &Belief, posterior: &Belief, exponent: f64) -> f64 {
    let ((from, wide), (to, narrow)) = (prior.of_life(exponent), posterior.of_life(exponent));
    let taken = (wide * wide - narrow * narrow).max(0.0).sqrt();
    if taken <= 1e-9 * wide {
        return 1.0;
    }
    2.0 * normal_probability(-(to - from).abs() / taken)
}

/// Probability, before the log is seen, of a run at least as far out as this one.
fn apart(evidence: &Evidence<'_>, outcome: Outcome, prior: &Belief) -> f64 {
    let failed = |seconds: f64| evidence.expected(prior, seconds);
    match outcome {
        Outcome::Survived(seconds) => 1.0 - failed(seconds),
        Outcome::FailedAt(seconds) => 2.0 * failed(seconds).min(1.0 - failed(seconds)),
        Outcome::FailedBetween(sound, seconds) => 2.0 * failed(seconds).min(1.0 - failed(sound.max(1e-9))),
    }
}

/// Whether failures scatter among each other as the model has it: the sum of squares of their standard scores about their
/// own middle, by chi-squared.
fn scatter_chance(runs: &[LoggedRun<'_>], models: &[&(WeakestLink, String)], posterior: &Belief) -> Option<f64> {
    let scores: Vec<f64> = runs
        .iter()
        .zip(models)
        .filter(|(run, _)| run.entry.outcome == RunOutcome::Failed)
        .map(|(run, (link, _))| {
            let share = failed_by(link, run.entry.seconds(), posterior);
            normal_quantile(share.clamp(1e-9, 1.0 - 1e-9)).unwrap_or(0.0)
        })
        .collect();
    if scores.len() < 2 {
        return None;
    }
    let mean = scores.iter().sum::<f64>() / scores.len() as f64;
    let squares: f64 = scores.iter().map(|score| (score - mean) * (score - mean)).sum();
    Some(1.0 - chi_squared_probability(squares, scores.len() - 1))
}

fn failed_by(link: &WeakestLink, seconds: f64, belief: &Belief) -> f64 {
    link.failed_by(seconds * exp(-belief.mean[1]), exp(-belief.mean[0]))
}

fn entry_report(entry: &BenchEntry, link: &WeakestLink, place: &str, posterior: &Belief) -> LearnedRunReport {
    LearnedRunReport {
        date: entry.date.clone(),
        rpm: entry.steps.iter().map(|step| step.rpm).fold(0.0, f64::max),
        seconds: entry.seconds(),
        failed: entry.outcome == RunOutcome::Failed,
        place: entry.place.clone(),
        mode: entry.mode,
        failed_by_before: link.failed_by(entry.seconds(), 1.0),
        failed_by_after: failed_by(link, entry.seconds(), posterior),
        b50_before_s: link.life_at(0.5, 1.0),
        model_place: place.into(),
    }
}

fn factors(belief: &Belief) -> FactorsReport {
    let [strength, life] = belief.deviations();
    let range = |k: usize, deviation: f64| [-1.0, 1.0].map(|sign| exp(belief.mean[k] + sign * NINETY * deviation));
    FactorsReport {
        strength: exp(belief.mean[0]),
        strength_range: range(0, strength),
        life: exp(belief.mean[1]),
        life_range: range(1, life),
        correlation: belief.covariance[(0, 1)] / (strength * life).max(f64::MIN_POSITIVE),
    }
}

fn life(report: &Report) -> LearnedLifeReport {
    LearnedLifeReport {
        state: report.verdict.state,
        holds: report.verdict.holds,
        margin: report.verdict.margin,
        margin_factor: report.uncertainty.margin_factor,
        b10_s: report.life.b10_s,
        b50_s: report.life.b50_s,
        max_rpm: report.verdict.max_rpm,
    }
}

fn findings(
    regions: &[&'static str],
    posterior: &Belief,
    exponent: f64,
    chance: f64,
    scatter: Option<f64>,
    entries: &[LearnedRunReport],
    failures: usize,
) -> Vec<String> {
    let mut said = Vec::new();
    let (middle, deviation) = posterior.of_life(exponent);
    said.push(format!(
        "At this job parts of this family have a life factor of {:.2} over the card alone (90 % range {:.2} to {:.2}).",
        exp(middle),
        exp(middle - NINETY * deviation),
        exp(middle + NINETY * deviation)
    ));
    if chance < BEYOND_CHANCE {
        said.push(format!(
            "The log disagrees with the model beyond chance: if the card is right within its uncertainty, runs so far off come up \
             {}. Look for a cause outside the model: another material, a print fault, a load or a temperature that is not in \
             the job.",
            odds(chance)
        ));
    }
    if let Some(chance) = scatter.filter(|chance| *chance < BEYOND_CHANCE) {
        said.push(format!(
            "Failures scatter more than the model says; so much comes up {}. Perhaps this family holds parts of more than one \
             kind.",
            odds(chance)
        ));
    }
    if failures == 0 {
        said.push("No run failed: survivors give a least life, not a life.".into());
    }
    let told = entries.iter().filter_map(|entry| Some((entry.place.as_ref()?, &entry.model_place)));
    let elsewhere = told.filter(|(seen, model)| !same_region(regions, seen, model)).count();
    if elsewhere > 0 {
        said.push(format!(
            "{elsewhere} {} at another place than the model's weakest: factors on strength and life cannot correct that.",
            if elsewhere == 1 { "failure was seen" } else { "failures were seen" }
        ));
    }
    said
}

fn odds(chance: f64) -> String {
    if chance < 1e-6 { "less than once in a million logs".into() } else { format!("once in {:.0} logs", 1.0 / chance) }
}

/// Whether what was seen names the region of the model's place; `regions` are those of the part, and other words are not
/// judged.
fn same_region(regions: &[&'static str], seen: &str, model: &str) -> bool {
    let region = |text: &str| region_of(text, regions);
    region(seen).is_none() || region(seen) == region(model)
}
