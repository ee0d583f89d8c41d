use layload_core::bench::BenchEntry;
use layload_core::job::JobError;

use crate::args::LearnArguments;
use crate::bench_log::{BenchLog, add, named_from, usual_family};
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::{check_free, print_report, write_file};
use crate::progress::StageBar;
use crate::text;

/// Adds a run if there is one, and says what the log teaches; the exit code is that of the part with it.
pub(crate) fn run(arguments: &LearnArguments) -> Result<Outcome, Failure> {
    if let Some(path) = &arguments.card_out {
        check_free(path, arguments.overwrite)?;
    }
    let job = ReadJob::read(&arguments.job)?;
    let mut bar = StageBar::new();
    let part = layload_core::load(&bytes(&arguments.mesh)?, &job.job, &mut bar)?;
    let family = arguments.family.clone().unwrap_or_else(|| usual_family(&part, &job.job, job.card.as_deref()));
    // A log with a broken line is refused before anything is added to it.
    BenchLog::read(&arguments.log)?;
    if let Some(outcome) = arguments.run.add {
        let run = &arguments.run;
        let steps =
            if run.steps.is_empty() { job.job.duty.steps.clone().unwrap_or_default() } else { run.steps.clone() };
        let entry = BenchEntry {
            family: family.clone(),
            outcome: outcome.into(),
            steps,
            sound_s: run.sound,
            temperature_c: run.measured_c,
            place: run.place.clone(),
            how: run.how.clone(),
            mesh: named_from(&arguments.log, &arguments.mesh),
            // Options over the job file are not in it: such a run is held against the job it is asked with.
            job: arguments.job.job.as_deref().and_then(|path| named_from(&arguments.log, path)),
            date: run.date.clone(),
            note: run.note.clone(),
        };
        let entry = entry.checked().map_err(layload_core::Error::from)?;
        add(&arguments.log, &entry)?;
    }
    let log = BenchLog::read(&arguments.log)?;
    let (report, card) = log.learned(&part, &job, &family, &mut bar)?;
    if let Some(path) = &arguments.card_out {
        write_file(path, card.to_toml().map_err(JobError::from)?.as_bytes(), arguments.overwrite)?;
    }
    drop(bar);
    print_report(&report, arguments.json, || text::learn(&report, log.torn))?;
    Ok(if report.life_after.holds { Outcome::Good } else { Outcome::DoesNotHold })
}
