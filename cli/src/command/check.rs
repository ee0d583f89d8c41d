use std::io::IsTerminal;
use std::path::{Path, PathBuf};

use layload_core::job::{Assumption, JobError, Origin};
use layload_core::report::words::Words;
use layload_core::report::{FacetValues, Report};
use layload_core::{CheckRequest, FieldRequest, LoadedPart, PartSource, Record};

use super::check_many;
use crate::answer::{Checked, give, inputs, planned, write};
use crate::args::CheckArguments;
use crate::bench_log::{BenchLog, usual_family};
use crate::color::ColorChoice;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::{Outputs, Plan, print_text};
use crate::progress::StageBar;
use crate::text;
use crate::visible::shown;

/// Checks one part or several.
pub(crate) fn run(arguments: &CheckArguments, color: ColorChoice) -> Result<Outcome, Failure> {
    let [mesh] = arguments.meshes.as_slice() else {
        return check_many::run(arguments, color);
    };
    let (answer, outputs) = checked(arguments, mesh, color)?;
    let outcome = answer.report.verdict.state.into();
    if arguments.show.summary {
        let mut table = text::totals(&[text::Row::of(&shown(mesh), &answer.report)]);
        text::safety(&mut table);
        let told = print_text(&table);
        told.and(write(&answer, arguments, &outputs))?;
    } else {
        give(&answer, arguments, arguments.json, &outputs)?;
    }
    Ok(outcome)
}

/// Checks one part; its files are planned and not yet written.
pub(super) fn checked(
    arguments: &CheckArguments,
    path: &Path,
    color: ColorChoice,
) -> Result<(Checked, Outputs), Failure> {
    let mut job = ReadJob::read(&arguments.job)?;
    let given = || [Some(path), arguments.job.job.as_deref()].into_iter().flatten();
    let log = arguments.log.as_deref().map(|log| BenchLog::read(log, arguments.job.any_folder, given())).transpose()?;
    let named: Vec<PathBuf> = log.iter().flat_map(BenchLog::files).collect();
    let read = job.files().chain([path]).chain(arguments.log.as_deref());
    let plan = Plan::new(arguments.paint.overwrite).reading(read.chain(named.iter().map(PathBuf::as_path)));
    let outputs = planned::<Checked>(arguments, plan)?;
    let mesh = bytes(path)?;
    let mut learned = Vec::new();
    let known: LoadedPart;
    let mut source = PartSource::from(&mesh);
    let mut bar = progress(arguments);
    let look = first_look(arguments);
    if log.is_some() || look {
        known = layload_core::load(&mesh, &job.job, &mut progress(arguments))?;
        source = PartSource::from(&known);
        if let Some(log) = &log {
            learned = know(&mut job, &known, log, (arguments.family.as_deref(), arguments.field.wanted.request()))?;
        }
    }
    if look {
        // What cannot be looked at is said by the check itself.
        if let Ok(report) = layload_core::quick_look(source, &job.question(), &mut ()) {
            bar.head(&Words(&report).first_look());
        }
    }
    let (record, mut report, facets) = answered(arguments, source, &job, &mut bar)?;
    report.assumptions.extend(learned.iter().cloned());
    let record = match record {
        None => None,
        Some(mut record) => {
            record.report.assumptions.extend(learned);
            Some((record, inputs(path, &mesh, &job)?))
        }
    };
    complete(arguments, &mut report, facets.as_ref(), &bar);
    Ok((Checked { report, record, facets, color: color.enabled(), show: arguments.show }, outputs))
}

/// The bar of a check; none where no more than the verdict is wanted.
fn progress(arguments: &CheckArguments) -> StageBar {
    if arguments.show.quiet { StageBar::silent() } else { StageBar::new() }
}

/// Whether a look at sections stands over the bar until the answer is there.
fn first_look(arguments: &CheckArguments) -> bool {
    let one = arguments.meshes.len() == 1;
    let words = !arguments.json && !arguments.show.quiet && !arguments.show.summary;
    one && words && arguments.field.wanted.request().is_some() && std::io::stderr().is_terminal()
}

/// What the check found, with the record where a file of it is wanted.
fn answered(
    arguments: &CheckArguments,
    source: PartSource<'_>,
    job: &ReadJob,
    bar: &mut StageBar,
) -> Result<(Option<Record>, Report, Option<FacetValues>), Failure> {
    let facets = arguments.paint.wanted() || arguments.facets;
    let request = CheckRequest { facets, field: arguments.field.wanted.request() };
    if arguments.record.wanted() {
        let mut record = layload_core::record(source, &job.question(), &request, bar)?;
        let (report, facets) = (record.report.clone(), record.facets.take());
        return Ok((Some(record), report, facets));
    }
    let found = layload_core::check_with(source, &job.question(), &request, bar)?;
    Ok((None, found.report, found.facets))
}

/// Adds what was asked for beyond the answer: stress of the facets, times of the solutions.
fn complete(arguments: &CheckArguments, report: &mut Report, facets: Option<&FacetValues>, bar: &StageBar) {
    if let Some(used) = facets.filter(|_| arguments.facets) {
        report.facet_utilisation = Some(used.values.iter().map(|v| v.unwrap_or(0.0)).collect());
    }
    if let Some(field) = report.field.as_mut().filter(|_| arguments.field.timings) {
        for (solve, taken) in field.solves.iter_mut().zip(bar.solves()) {
            solve.seconds = Some(taken.as_secs_f64());
        }
    }
}

/// Puts what a log teaches into the card of a job, and says so.
pub(super) fn know(
    job: &mut ReadJob,
    part: &LoadedPart,
    log: &BenchLog<'_>,
    (family, field): (Option<&str>, Option<FieldRequest>),
) -> Result<Vec<Assumption>, Failure> {
    let family = family.map_or_else(|| usual_family(part, &job.job, job.card.as_deref()), String::from);
    let (report, card) = log.learned(part, job, &family, field, &mut StageBar::new())?;
    let log = log.path().display();
    job.card = Some(card.to_toml().map_err(JobError::from)?);
    job.job.material.name = None;
    job.job.material.card_file = Some(log.to_string());
    let mut told = format!("{} runs of {family}, {} failed; {}", report.runs, report.failures, log);
    if report.disagrees {
        told += "; they disagree with the model beyond chance, see layload learn";
    }
    let factor = |name: &str, value: f64| Assumption::number(name, value, "1", Origin::Given).citing(&told);
    Ok(vec![
        Assumption::word("bench log", &told, Origin::Given),
        factor("strength learned, over the card's", report.after.strength),
        factor("life learned, over the model's", report.after.life),
    ])
}
