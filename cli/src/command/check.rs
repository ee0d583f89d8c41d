use std::path::PathBuf;

use layload_core::job::{Assumption, JobError, Origin};
use layload_core::report::Report;
use layload_core::{CheckRequest, Checked, LoadedPart, PartSource};

use crate::args::CheckArguments;
use crate::bench_log::{BenchLog, usual_family};
use crate::color::ColorChoice;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::{Plan, print_json, print_marked};
use crate::painted::{self, Painting};
use crate::progress::StageBar;
use crate::{recorded, text};

/// Checks a part, writes the files asked for and prints the answer.
pub(crate) fn run(arguments: &CheckArguments, color: ColorChoice) -> Result<Outcome, Failure> {
    let mut job = ReadJob::read(&arguments.rod.job)?;
    let given = || [Some(arguments.rod.mesh.as_path()), arguments.rod.job.job.as_deref()].into_iter().flatten();
    let any_folder = arguments.rod.job.any_folder;
    let log = arguments.log.as_deref().map(|path| BenchLog::read(path, any_folder, given())).transpose()?;
    let named: Vec<PathBuf> = log.iter().flat_map(BenchLog::files).collect();
    let inputs = job.files().chain([arguments.rod.mesh.as_path()]).chain(arguments.log.as_deref());
    let plan = Plan::new(arguments.paint.overwrite).reading(inputs.chain(named.iter().map(PathBuf::as_path)));
    let outputs = arguments.record.planned(arguments.paint.planned(plan)?)?.checked()?;
    let mesh = bytes(&arguments.rod.mesh)?;
    let mut learned = Vec::new();
    let known: LoadedPart;
    let mut source = PartSource::from(&mesh);
    if let Some(log) = &log {
        known = layload_core::load(&mesh, &job.job, &mut StageBar::new())?;
        learned = know(&mut job, &known, log, arguments.family.as_deref())?;
        source = PartSource::from(&known);
    }
    let request =
        CheckRequest { facets: arguments.paint.wanted() || arguments.facets, field: arguments.field.wanted.request() };
    let mut bar = StageBar::new();
    let (record, mut report, facets) = if arguments.record.wanted() {
        let mut record = layload_core::record(source, &job.question(), &request, &mut bar)?;
        record.report.assumptions.extend(learned);
        let (report, facets) = (record.report.clone(), record.facets.take());
        (Some(record), report, facets)
    } else {
        let Checked { mut report, facets } = layload_core::check_with(source, &job.question(), &request, &mut bar)?;
        report.assumptions.extend(learned);
        (None, report, facets)
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
    // The answer first: a file that cannot be written keeps back neither it nor the other files.
    let told = if arguments.rod.json { print_json(&report) } else { told(&report, color) };
    let recorded = record.map_or(Ok(()), |record| {
        let inputs = recorded::inputs(&arguments.rod.mesh, &mesh, &job)?;
        recorded::write(&arguments.record, &record, &inputs, &outputs)
    });
    let paint = |used| painted::write(&arguments.paint, &Painting::utilisation(used), &outputs);
    let painted = facets.as_ref().map_or(Ok(()), paint);
    told.and(recorded).and(painted)?;
    Ok(if report.verdict.holds { Outcome::Good } else { Outcome::DoesNotHold })
}

/// Prints a report in words.
pub(super) fn told(report: &Report, color: ColorChoice) -> Result<(), Failure> {
    let (word, style) = text::headline::mark(report);
    print_marked(&text::report(report), word, color.enabled().then_some(style))
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
