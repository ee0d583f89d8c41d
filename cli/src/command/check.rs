use std::io::IsTerminal;
use std::path::PathBuf;

use layload_core::job::{Assumption, JobError, Origin};
use layload_core::report::words::answer::quick as first_look_told;
use layload_core::{CheckRequest, LoadedPart, PartSource};

use crate::answer::{Checked, give, inputs, planned};
use crate::args::CheckArguments;
use crate::bench_log::{BenchLog, usual_family};
use crate::color::ColorChoice;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::Plan;
use crate::progress::StageBar;

/// Checks a part, writes the files asked for and prints the answer.
pub(crate) fn run(arguments: &CheckArguments, color: ColorChoice) -> Result<Outcome, Failure> {
    let mut job = ReadJob::read(&arguments.rod.job)?;
    let given = || [Some(arguments.rod.mesh.as_path()), arguments.rod.job.job.as_deref()].into_iter().flatten();
    let any_folder = arguments.rod.job.any_folder;
    let log = arguments.log.as_deref().map(|path| BenchLog::read(path, any_folder, given())).transpose()?;
    let named: Vec<PathBuf> = log.iter().flat_map(BenchLog::files).collect();
    let read = job.files().chain([arguments.rod.mesh.as_path()]).chain(arguments.log.as_deref());
    let plan = Plan::new(arguments.paint.overwrite).reading(read.chain(named.iter().map(PathBuf::as_path)));
    let outputs = planned::<Checked>(arguments, plan)?;
    let mesh = bytes(&arguments.rod.mesh)?;
    let mut learned = Vec::new();
    let known: LoadedPart;
    let mut source = PartSource::from(&mesh);
    let request =
        CheckRequest { facets: arguments.paint.wanted() || arguments.facets, field: arguments.field.wanted.request() };
    let first_look = request.field.is_some() && !arguments.rod.json && std::io::stderr().is_terminal();
    if log.is_some() || first_look {
        known = layload_core::load(&mesh, &job.job, &mut StageBar::new())?;
        source = PartSource::from(&known);
        if let Some(log) = &log {
            learned = know(&mut job, &known, log, arguments.family.as_deref())?;
        }
    }
    let mut bar = StageBar::new();
    if first_look {
        // What cannot be looked at is said by the check itself.
        if let Ok(report) = layload_core::quick_look(source, &job.question(), &mut ()) {
            bar.head(&first_look_told(&report));
        }
    }
    let (record, mut report, facets) = if arguments.record.wanted() {
        let mut record = layload_core::record(source, &job.question(), &request, &mut bar)?;
        record.report.assumptions.extend(learned);
        let (report, facets) = (record.report.clone(), record.facets.take());
        (Some((record, inputs(&arguments.rod.mesh, &mesh, &job)?)), report, facets)
    } else {
        let found = layload_core::check_with(source, &job.question(), &request, &mut bar)?;
        let mut report = found.report;
        report.assumptions.extend(learned);
        (None, report, found.facets)
    };
    let timings = bar.solves();
    drop(bar);
    if let Some(used) = facets.as_ref().filter(|_| arguments.facets) {
        report.facet_utilisation = Some(used.values.iter().map(|v| v.unwrap_or(0.0)).collect());
    }
    if let Some(field) = report.field.as_mut().filter(|_| arguments.field.timings) {
        for (solve, taken) in field.solves.iter_mut().zip(timings) {
            solve.seconds = Some(taken.as_secs_f64());
        }
    }
    let outcome = report.verdict.state.into();
    let answer = Checked { report, record, facets, color: color.enabled() };
    give(&answer, arguments, arguments.rod.json, &outputs)?;
    Ok(outcome)
}

/// Puts what a log teaches into the card of a job, and says so.
fn know(
    job: &mut ReadJob,
    part: &LoadedPart,
    log: &BenchLog<'_>,
    family: Option<&str>,
) -> Result<Vec<Assumption>, Failure> {
    let family = family.map_or_else(|| usual_family(part, &job.job, job.card.as_deref()), String::from);
    let (report, card) = log.learned(part, job, &family, &mut StageBar::new())?;
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
