use std::fmt::Write as _;
use std::io::IsTerminal;
use std::path::PathBuf;

use indicatif::{ProgressBar, ProgressStyle};
use layload_core::Study;
use layload_core::study::StudyPlan;

use crate::answer::{Studied, planned, print, write};
use crate::args::StudyArguments;
use crate::failure::Failure;
use crate::input::{Neighbours, ReadJob, Wanted, text as text_of};
use crate::outcome::Outcome;
use crate::output::{Plan, print_text};
use crate::progress::StageBar;
use crate::study::{Folder, header, row_of};

/// Cases that go into the journal at a time: what a killed run loses at most.
const BATCH: usize = 64;

/// Runs the cases of a shard that are not finished yet, and writes the results when none are left.
pub(crate) fn run(arguments: &StudyArguments) -> Result<Outcome, Failure> {
    let written = text_of(&arguments.study, Wanted::Study)?;
    let plan = StudyPlan::from_toml(&written).map_err(layload_core::Error::from)?;
    let neighbours = Neighbours::of(&arguments.study, arguments.any_folder);
    let (_, job_text) = neighbours.text(&plan.job, Wanted::Job)?;
    let job = ReadJob::of_neighbour(&neighbours, &plan.job)?;
    let mut told = format!("layload {}\n\n{written}\n\n{job_text}", env!("CARGO_PKG_VERSION"));
    let mut inputs: Vec<PathBuf> = job.files().map(PathBuf::from).chain([arguments.study.clone()]).collect();
    for more in [&job.card, &job.pressure].into_iter().flatten() {
        let _ = write!(told, "\n\n{more}");
    }
    let mut parts = Vec::new();
    for mesh in &plan.meshes {
        let (path, stl) = neighbours.mesh(mesh)?;
        inputs.push(path);
        let _ = write!(told, "\n\n{mesh}: {} bytes, checksum {:08x}", stl.len(), crc32fast::hash(&stl));
        parts.push(layload_core::load(&stl, &job.job, &mut ())?);
    }
    let columns = header(plan.inputs.iter().map(|input| input.name));
    let place = || {
        let plan = Plan::new(true).reading(inputs.iter().map(PathBuf::as_path));
        planned::<Studied>(arguments, plan)
    };
    let folder = Folder::open(&arguments.out, &told, columns, arguments.shard, arguments.resume, place)?;
    let study = Study::new(plan, &parts, &job.question(), &mut StageBar::new())?;
    let count = study.plan().count();
    let shard = arguments.shard;
    let finished = folder.finished(study.plan())?;
    let pending: Vec<usize> =
        (0..count).filter(|case| case % shard.count == shard.number - 1 && !finished.contains_key(case)).collect();
    let mut journal = folder.journal_for(shard)?;
    let bar = progress(count.div_ceil(shard.count), pending.len());
    for batch in pending.chunks(BATCH) {
        let rows: Vec<_> = study.run(batch).iter().map(row_of).collect();
        journal.add(&rows)?;
        bar.inc(batch.len() as u64);
    }
    bar.finish_and_clear();
    let rows = folder.finished(study.plan())?;
    if rows.len() < count {
        let left = count - rows.len();
        let out = arguments.out.display();
        print_text(&format!(
            "Shard {} of {} is done; {left} of {count} cases are left to others.\nWhen they are done, --resume without \
             --shard writes the results to {out}.\n",
            shard.number, shard.count
        ))?;
        return Ok(Outcome::Good);
    }
    let cases: Vec<_> = (0..count).map(|case| rows.get(&case).and_then(crate::study::Row::responses)).collect();
    let report = study.effects(&cases);
    #[cfg(feature = "parquet")]
    let parquet = Some(crate::study::parquet(study.plan(), &rows)?);
    #[cfg(not(feature = "parquet"))]
    let parquet = None;
    let answer = Studied { report, table: folder.table(&rows), parquet, out: arguments.out.clone() };
    write(&answer, arguments, folder.outputs())?;
    print(&answer, arguments.json)?;
    Ok(Outcome::Good)
}

/// A bar on stderr; nothing when that is no terminal.
fn progress(whole: usize, pending: usize) -> ProgressBar {
    if !std::io::stderr().is_terminal() {
        return ProgressBar::hidden();
    }
    let bar = ProgressBar::new(whole as u64);
    if let Ok(style) = ProgressStyle::with_template("{wide_bar} {pos} of {len} cases, {eta} left") {
        bar.set_style(style);
    }
    bar.set_position((whole - pending.min(whole)) as u64);
    bar
}
