//! The bench log as a file: read, and added to one whole line at a time.

use std::collections::BTreeMap;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use layload_core::bench::{BenchEntry, BenchError, LogLines, read_lines};
use layload_core::job::Job;
use layload_core::material::Card;
use layload_core::report::LearnReport;
use layload_core::{FieldRequest, LoadedPart, LoggedRun, Watcher, learn};

use crate::failure::Failure;
use crate::input::{Neighbours, ReadJob, Wanted, text};
use crate::output::appendable;
use crate::visible::shown;

/// A log read, with what it may name.
pub(crate) struct BenchLog<'a> {
    lines: LogLines,
    /// Number of the line that the next run would have.
    next: usize,
    path: &'a Path,
    neighbours: Neighbours<'a>,
}

impl<'a> BenchLog<'a> {
    /// Reads a log; one that is not there has no runs. Files that its runs name lie in its folder, or are those `given`.
    pub(crate) fn read(
        path: &'a Path,
        any_folder: bool,
        given: impl IntoIterator<Item = &'a Path>,
    ) -> Result<Self, Failure> {
        let written = written_in(path)?;
        let lines = read_lines(&written).map_err(layload_core::Error::from)?;
        let next = written.lines().count() + 1;
        let neighbours = Neighbours::of(path, any_folder).given(given);
        Ok(Self { lines, next, path, neighbours })
    }

    /// Where it is.
    pub(crate) fn path(&self) -> &Path {
        self.path
    }

    /// Files that its runs name.
    pub(crate) fn files(&self) -> impl Iterator<Item = PathBuf> + '_ {
        let folder = self.path.parent().unwrap_or(Path::new(""));
        let names = self.lines.entries.iter().flat_map(|(_, entry)| entry.mesh.iter().chain(&entry.job));
        names.map(|name| folder.join(name))
    }

    /// The log with one more run.
    pub(crate) fn with(mut self, entry: BenchEntry) -> Self {
        self.lines.entries.push((self.next, entry));
        self
    }

    /// The log without the run of a line.
    pub(crate) fn without(mut self, line: usize) -> Result<Self, Failure> {
        let refused = |reason| layload_core::Error::from(BenchError::NotTakenBack { reason });
        self.lines.take_back(line).map_err(refused)?;
        Ok(self)
    }

    /// Number of its last line, if that was never finished.
    pub(crate) fn unfinished(&self) -> Option<usize> {
        self.lines.unfinished
    }

    /// Numbers of the lines of a family's runs.
    pub(crate) fn numbers(&self, family: &str) -> Vec<usize> {
        let own = self.lines.entries.iter().filter(|(_, entry)| entry.family == family);
        own.map(|(number, _)| *number).collect()
    }

    /// Learns from the runs of a family what they say of a part and its job.
    pub(crate) fn learned(
        &self,
        part: &LoadedPart,
        job: &ReadJob,
        family: &str,
        field: Option<FieldRequest>,
        watcher: &mut dyn Watcher,
    ) -> Result<(LearnReport, Card), Failure> {
        let all = || self.lines.entries.iter().map(|(_, entry)| entry);
        let chosen: Vec<&BenchEntry> = all().filter(|entry| entry.family == family).collect();
        if chosen.is_empty() {
            let mut known: Vec<String> = all().map(|entry| entry.family.clone()).collect();
            known.sort();
            known.dedup();
            let error = BenchError::NoRuns { family: family.into(), known };
            return Err(layload_core::Error::from(error).into());
        }
        let mut jobs: BTreeMap<&str, ReadJob> = BTreeMap::new();
        let mut parts: BTreeMap<&str, LoadedPart> = BTreeMap::new();
        for entry in &chosen {
            if let Some(name) = entry.job.as_deref().filter(|name| !jobs.contains_key(name)) {
                jobs.insert(name, ReadJob::of_neighbour(&self.neighbours, name)?);
            }
            if let Some(name) = entry.mesh.as_deref().filter(|name| !parts.contains_key(name)) {
                let own = entry.job.as_deref().and_then(|name| jobs.get(name)).unwrap_or(job);
                let (_, stl) = self.neighbours.mesh(name)?;
                parts.insert(name, layload_core::load(&stl, &own.job, watcher)?);
            }
        }
        let runs: Vec<LoggedRun<'_>> = chosen
            .iter()
            .map(|entry| LoggedRun {
                entry,
                part: entry.mesh.as_deref().and_then(|name| parts.get(name)).unwrap_or(part),
                question: entry.job.as_deref().and_then(|name| jobs.get(name)).unwrap_or(job).question(),
            })
            .collect();
        Ok(learn(part, &job.question(), family, &runs, field, watcher)?)
    }
}

/// The family of a part unless it is given: its kind and its material.
pub(crate) fn usual_family(part: &LoadedPart, job: &Job, card: Option<&str>) -> String {
    let kind = part.part.kind().words();
    let own = card.and_then(|text| Card::from_toml(text).ok()).map(|card| card.name);
    let material = own.or_else(|| job.material.name.clone()).unwrap_or_default();
    format!("{kind} {material}")
}

/// Adds a line at the end of a log, whole or not at all.
///
/// The line goes out in one piece and is on the disk before this returns; where that fails, the log is cut back to what
/// it was. What is there already stays, but for a last line that was never finished where `cut` says so.
pub(crate) fn add(path: &Path, line: Result<String, BenchError>, cut: bool) -> Result<(), Failure> {
    let failed = |error: &io::Error| Failure::Unwritable { path: path.into(), reason: error.to_string() };
    let line = line.map_err(layload_core::Error::from)?;
    let mut options = OpenOptions::new();
    let mut file =
        options.read(true).write(true).create(true).truncate(false).open(path).map_err(|error| failed(&error))?;
    file.lock().map_err(|error| failed(&error))?;
    let mut written = Vec::new();
    file.read_to_end(&mut written).map_err(|error| failed(&error))?;
    // Another program may have added to it since it was read.
    let end = end_of(path, &written, cut)?;
    append(&mut file, &end, line.as_bytes()).map_err(|error| failed(&error))?;
    // A new file is only there for good once its folder knows it.
    if let Some(folder) = path.parent() {
        let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
        if let Ok(folder) = File::open(folder) {
            let _ = folder.sync_all();
        }
    }
    Ok(())
}

/// Refuses what is no log that an entry can be added to, before any work is done.
pub(crate) fn takes_entries(path: &Path, cut: bool) -> Result<(), Failure> {
    appendable(path)?;
    let written = written_in(path)?;
    end_of(path, written.as_bytes(), cut).map(|_| ())
}

/// What a log holds; nothing where there is none. A pipe is none: whoever waits for its other end waits in vain.
fn written_in(path: &Path) -> Result<String, Failure> {
    match fs::metadata(path) {
        Err(_) => Ok(String::new()),
        Ok(meta) if !meta.is_file() && !meta.is_dir() => Err(Failure::Refused {
            message: format!("{} is a pipe or a device, not a bench log", shown(path)),
            help: "give the name of a log, or of a file that is not there yet".into(),
        }),
        Ok(_) => text(path, Wanted::Log),
    }
}

/// Where the next entry begins in a log.
struct End {
    /// Length of the log as it is.
    whole: u64,
    /// Length of what is kept.
    kept: u64,
    /// Whether what is kept lacks the end of its last line.
    open: bool,
}

/// The end of a log; refused is what is none, and one with an unfinished last line unless that is to be `cut`.
fn end_of(path: &Path, written: &[u8], cut: bool) -> Result<End, Failure> {
    let not_a_log = |reason: &str| Failure::Refused {
        message: format!("{} {reason}, so nothing is added to it", shown(path)),
        help: "give the name of a log, or of a file that is not there yet".into(),
    };
    let text = std::str::from_utf8(written).map_err(|_| not_a_log("is not text in UTF-8"))?;
    let lines = read_lines(text).map_err(layload_core::Error::from)?;
    let whole = written.len() as u64;
    let no_run = lines.entries.is_empty() && lines.taken_back.is_empty();
    match lines.unfinished {
        Some(line) if !cut => Err(Failure::Refused {
            message: format!("line {line} of {}, the last one, was never finished", shown(path)),
            help: "correct or delete that line, or let --cut-unfinished cut it off; nothing was changed".into(),
        }),
        Some(_) => Ok(End { whole, kept: text.rfind('\n').map_or(0, |end| end as u64 + 1), open: false }),
        None if no_run && !text.trim().is_empty() => Err(not_a_log("has no run in it and is not empty")),
        None => Ok(End { whole, kept: whole, open: !text.is_empty() && !text.ends_with('\n') }),
    }
}

fn append(file: &mut File, end: &End, line: &[u8]) -> io::Result<()> {
    let bytes = [if end.open { b"\n".as_slice() } else { b"" }, line].concat();
    if end.kept < end.whole {
        file.set_len(end.kept)?;
    }
    file.seek(SeekFrom::Start(end.kept))?;
    let done = file.write_all(&bytes).and_then(|()| file.sync_all());
    if done.is_err() {
        file.set_len(end.kept)?;
    }
    done
}

/// A file's name as seen from the folder of the log, so that both can move together; the whole path where it lies
/// elsewhere.
pub(crate) fn named_from(log: &Path, file: &Path) -> Option<String> {
    let folder = log.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let (folder, file) = (fs::canonicalize(folder).ok()?, fs::canonicalize(file).ok()?);
    let name = file.strip_prefix(&folder).unwrap_or(&file);
    Some(name.display().to_string())
}
