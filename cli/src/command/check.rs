use std::path::Path;

use layload_core::job::{Assumption, JobError, Origin};
use layload_core::report::Report;

use crate::args::CheckArguments;
use crate::bench_log::{BenchLog, usual_family};
use crate::color::ColorChoice;
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::print_report;
use crate::painted::{self, Painting};
use crate::progress::StageBar;
use crate::{recorded, text};

/// Checks a part, writes the files asked for and prints the answer.
pub(crate) fn run(arguments: &CheckArguments, color: ColorChoice) -> Result<Outcome, Failure> {
    arguments.paint.checked()?;
    arguments.record.checked(arguments.paint.overwrite)?;
    let mut job = ReadJob::read(&arguments.rod.job)?;
    let mesh = bytes(&arguments.rod.mesh)?;
    let learned = match &arguments.log {
        Some(log) => know(&mut job, &mesh, log, arguments.family.as_deref())?,
        None => Vec::new(),
    };
    let report = if arguments.record.wanted() {
        recorded(arguments, &job, &mesh, learned)?
    } else {
        let mut report = checked(arguments, &job, &mesh)?;
        report.assumptions.extend(learned);
        report
    };
    print_report(&report, arguments.rod.json, || text::report(&report, color.enabled()))?;
    Ok(if report.verdict.holds { Outcome::Good } else { Outcome::DoesNotHold })
}

/// The answer, and the painted part where it is asked for.
fn checked(arguments: &CheckArguments, job: &ReadJob, mesh: &Vec<u8>) -> Result<Report, Failure> {
    if !(arguments.paint.wanted() || arguments.facets) {
        return Ok(layload_core::check(mesh, &job.question(), &mut StageBar::new())?);
    }
    let (mut report, used) = layload_core::check_facets(mesh, &job.question(), &mut StageBar::new())?;
    painted::write(&arguments.paint, &Painting::utilisation(&used))?;
    report.facet_utilisation = arguments.facets.then(|| used.values.into_iter().flatten().collect());
    Ok(report)
}

/// One result for the page, the drawings, the tables, the painted part and what is printed.
fn recorded(
    arguments: &CheckArguments,
    job: &ReadJob,
    mesh: &Vec<u8>,
    learned: Vec<Assumption>,
) -> Result<Report, Failure> {
    let facets = arguments.paint.wanted() || arguments.facets;
    let mut record = layload_core::record(mesh, &job.question(), facets, &mut StageBar::new())?;
    record.report.assumptions.extend(learned);
    let inputs = recorded::inputs(&arguments.rod.mesh, mesh, job)?;
    recorded::write(&arguments.record, &record, &inputs, arguments.paint.overwrite)?;
    if let Some(used) = &record.facets {
        painted::write(&arguments.paint, &Painting::utilisation(used))?;
    }
    Ok(if arguments.facets { recorded::with_facets(&record) } else { record.report })
}

/// Puts what a log teaches into the card of a job, and says so.
fn know(job: &mut ReadJob, mesh: &[u8], log: &Path, family: Option<&str>) -> Result<Vec<Assumption>, Failure> {
    let part = layload_core::load(mesh, &job.job, &mut StageBar::new())?;
    let family = family.map_or_else(|| usual_family(&part, &job.job, job.card.as_deref()), String::from);
    let (report, card) = BenchLog::read(log)?.learned(&part, job, &family, &mut StageBar::new())?;
    job.card = Some(card.to_toml().map_err(JobError::from)?);
    job.job.material.name = None;
    job.job.material.card_file = Some(log.display().to_string());
    let mut told = format!("{} runs of {family}, {} failed; {}", report.runs, report.failures, log.display());
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
