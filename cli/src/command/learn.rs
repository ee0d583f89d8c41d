use std::path::PathBuf;

use layload_core::bench::{BenchEntry, TakeBack};

use crate::answer::{Learned, planned, print, write};
use crate::args::{LearnArguments, OutcomeName};
use crate::bench_log::{BenchLog, add, named_from, takes_entries, usual_family};
use crate::failure::Failure;
use crate::input::{ReadJob, bytes};
use crate::outcome::Outcome;
use crate::output::{Plan, print_text};
use crate::progress::StageBar;

/// Says what the log teaches, with a run more if there is one, and then adds that; the exit code is that of the part with
/// it. Where there is no answer, nothing is added.
pub(crate) fn run(arguments: &LearnArguments) -> Result<Outcome, Failure> {
    let job = ReadJob::read(&arguments.job)?;
    let given = [Some(arguments.mesh.as_path()), arguments.job.job.as_deref()].into_iter().flatten();
    let mut log = BenchLog::read(&arguments.log, arguments.job.any_folder, given)?;
    let outputs = {
        let named: Vec<PathBuf> = log.files().collect();
        let inputs = job.files().chain([arguments.mesh.as_path(), &arguments.log]);
        let plan = Plan::new(arguments.overwrite).reading(inputs.chain(named.iter().map(PathBuf::as_path)));
        planned::<Learned>(arguments, plan)?
    };
    if arguments.run.add.is_some() || arguments.take_back.is_some() {
        takes_entries(&arguments.log, arguments.run.cut_unfinished)?;
    }
    let mut bar = StageBar::new();
    let part = layload_core::load(&bytes(&arguments.mesh)?, &job.job, &mut bar)?;
    let family = arguments.family.clone().unwrap_or_else(|| usual_family(&part, &job.job, job.card.as_deref()));
    if let Some(line) = arguments.take_back {
        log = log.without(line)?;
        if log.numbers(&family).is_empty() {
            drop(bar);
            print_text(&format!("The run of line {line} is taken back. No run of {family} is left.\n"))?;
            taken_back(arguments, line)?;
            return Ok(Outcome::Good);
        }
    }
    let entry = arguments.run.add.map(|outcome| entry(arguments, &job, &family, outcome)).transpose()?;
    if let Some(entry) = &entry {
        log = log.with(entry.clone());
    }
    let (report, card) = log.learned(&part, &job, &family, arguments.field.request(), &mut bar)?;
    drop(bar);
    let outcome = report.life_after.state.into();
    let answer = Learned { report, card, unfinished: log.unfinished(), numbers: log.numbers(&family) };
    // An entry is added last: whoever tries again after a failure does not add it twice.
    let told = print(&answer, arguments.json);
    write(&answer, arguments, &outputs)?;
    told?;
    if let Some(line) = arguments.take_back {
        taken_back(arguments, line)?;
    }
    if let Some(entry) = &entry {
        add(&arguments.log, entry.line(), arguments.run.cut_unfinished)?;
    }
    Ok(outcome)
}

fn taken_back(arguments: &LearnArguments, line: usize) -> Result<(), Failure> {
    let back = TakeBack { takes_back: line, note: arguments.run.note.clone() };
    add(&arguments.log, back.line(), arguments.run.cut_unfinished)
}

/// The run that is to be added.
fn entry(
    arguments: &LearnArguments,
    job: &ReadJob,
    family: &str,
    outcome: OutcomeName,
) -> Result<BenchEntry, layload_core::Error> {
    let run = &arguments.run;
    let steps = if run.steps.is_empty() { job.job.duty.steps.clone().unwrap_or_default() } else { run.steps.clone() };
    let entry = BenchEntry {
        family: family.into(),
        outcome: outcome.into(),
        steps,
        sound_s: run.sound,
        temperature_c: run.measured_c,
        place: run.place.clone(),
        how: run.how.clone(),
        mode: None,
        seen: Vec::new(),
        mesh: named_from(&arguments.log, &arguments.mesh),
        // Options over the job file are not in it: such a run is held against the job it is asked with.
        job: arguments.job.job.as_deref().and_then(|path| named_from(&arguments.log, path)),
        date: run.date.clone(),
        note: run.note.clone(),
    };
    Ok(entry.checked()?)
}
