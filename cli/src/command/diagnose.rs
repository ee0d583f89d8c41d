use layload_core::bench::{BenchEntry, RunOutcome};
use layload_core::diagnosis::Look;
use layload_core::report::DiagnosisReport;
use layload_core::{DutyStep, SeenBreak};

use crate::answer::{Diagnosed, print};
use crate::args::DiagnoseArguments;
use crate::bench_log::{add, named_from, takes_entries, usual_family};
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::progress::StageBar;

/// Says what caused a break, and then adds the run to a log where that is asked for. Where there is no answer, nothing is
/// added.
pub(crate) fn run(arguments: &DiagnoseArguments) -> Result<Outcome, Failure> {
    let looks = looks(&arguments.seen.seen)?;
    let job = ReadJob::read(&arguments.job)?;
    if let Some(log) = &arguments.entry.log {
        takes_entries(log, arguments.entry.cut_unfinished)?;
    }
    let mut bar = StageBar::new();
    let part = layload_core::load(&bytes(&arguments.mesh)?, &job.job, &mut bar)?;
    let seen = SeenBreak { looks, ..arguments.seen.run() };
    let report = layload_core::diagnose(&part, &job.question(), &seen, arguments.field.request(), &mut bar)?;
    drop(bar);
    let entry = match &arguments.entry.log {
        None => None,
        Some(log) => {
            let named = arguments.entry.family.clone();
            let family = named.unwrap_or_else(|| usual_family(&part, &job.job, job.card.as_deref()));
            let entry = entry(arguments, &job, &seen, &report, family, log)?;
            Some((log, entry))
        }
    };
    let added = entry.as_ref().map(|(log, entry)| (log.display().to_string(), entry.mode));
    // An entry is added last: whoever tries again after a failure does not add it twice.
    print(&Diagnosed { report, added }, arguments.json)?;
    if let Some((log, entry)) = &entry {
        add(log, entry.line(), arguments.entry.cut_unfinished)?;
    }
    Ok(Outcome::Good)
}

/// The looks that words mean.
fn looks(words: &[String]) -> Result<Vec<Look>, Failure> {
    let said = words.iter().filter(|words| !words.trim().is_empty());
    said.map(|words| Look::named(words).map_err(|error| layload_core::Error::from(error).into())).collect()
}

/// A cause less likely than this is not written down as what it was.
const CLEAR: f64 = 0.5;

/// The run that is to be added.
fn entry(
    arguments: &DiagnoseArguments,
    job: &ReadJob,
    seen: &SeenBreak,
    report: &DiagnosisReport,
    family: String,
    log: &std::path::Path,
) -> Result<BenchEntry, layload_core::Error> {
    let seconds = seen.seconds.unwrap_or_default();
    let own = job.job.duty.steps.clone().unwrap_or_default();
    let whole: f64 = own.iter().map(|step| step.seconds).sum();
    let steps = if seen.rpm.is_some() || seen.throttle.is_some() {
        vec![DutyStep { rpm: report.run.rpm, throttle: seen.throttle.unwrap_or(1.0), seconds }]
    } else {
        own.iter().map(|step| DutyStep { seconds: step.seconds * seconds / whole, ..*step }).collect()
    };
    let clear = report.causes.first().filter(|cause| cause.probability >= CLEAR && !report.undecided);
    let entry = BenchEntry {
        family,
        outcome: RunOutcome::Failed,
        steps,
        sound_s: None,
        temperature_c: seen.measured_c,
        place: arguments.seen.at.clone(),
        how: None,
        mode: clear.and_then(|cause| cause.mode),
        seen: seen.looks.iter().map(|look| look.name().into()).collect(),
        mesh: named_from(log, &arguments.mesh),
        // Options over the job file are not in it: such a run is held against the job it is asked with.
        job: arguments.job.job.as_deref().and_then(|path| named_from(log, path)),
        date: arguments.entry.date.clone(),
        note: arguments.entry.note.clone(),
    };
    Ok(entry.checked()?)
}
