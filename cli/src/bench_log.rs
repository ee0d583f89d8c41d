//! The bench log as a file: read, and added to one whole line at a time.

use std::collections::BTreeMap;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use layload_core::bench::{BenchEntry, BenchError, read_log};
use layload_core::job::Job;
use layload_core::material::Card;
use layload_core::part::Part;
use layload_core::report::LearnReport;
use layload_core::{LoadedPart, LoggedRun, Watcher, learn};

use crate::failure::Failure;
use crate::input::{ReadJob, bytes, text};

/// A log read, with the folder from which its files are named.
pub(crate) struct BenchLog {
    entries: Vec<BenchEntry>,
    /// Whether its last line was never finished.
    pub(crate) torn: bool,
    folder: PathBuf,
}

impl BenchLog {
    /// Reads a log; one that is not there has no runs.
    pub(crate) fn read(path: &Path) -> Result<Self, Failure> {
        let written = if path.exists() { text(path)? } else { String::new() };
        let (entries, torn) = read_log(&written).map_err(layload_core::Error::from)?;
        let folder = path.parent().map(PathBuf::from).unwrap_or_default();
        Ok(Self { entries, torn, folder })
    }

    /// Learns from the runs of a family what they say of a part and its job.
    pub(crate) fn learned(
        &self,
        part: &LoadedPart,
        job: &ReadJob,
        family: &str,
        watcher: &mut dyn Watcher,
    ) -> Result<(LearnReport, Card), Failure> {
        let chosen: Vec<&BenchEntry> = self.entries.iter().filter(|entry| entry.family == family).collect();
        if chosen.is_empty() {
            let mut known: Vec<String> = self.entries.iter().map(|entry| entry.family.clone()).collect();
            known.sort();
            known.dedup();
            let error = BenchError::NoRuns { family: family.into(), known };
            return Err(layload_core::Error::from(error).into());
        }
        let mut jobs: BTreeMap<&str, ReadJob> = BTreeMap::new();
        let mut parts: BTreeMap<&str, LoadedPart> = BTreeMap::new();
        for entry in &chosen {
            if let Some(name) = entry.job.as_deref().filter(|name| !jobs.contains_key(name)) {
                jobs.insert(name, ReadJob::of_file(&self.folder.join(name))?);
            }
            if let Some(name) = entry.mesh.as_deref().filter(|name| !parts.contains_key(name)) {
                let own = entry.job.as_deref().and_then(|name| jobs.get(name)).unwrap_or(job);
                let stl = bytes(&self.folder.join(name))?;
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
        Ok(learn(part, &job.question(), family, &runs, watcher)?)
    }
}

/// The family of a part unless it is given: its kind and its material.
pub(crate) fn usual_family(part: &LoadedPart, job: &Job, card: Option<&str>) -> String {
    let kind = match part.part {
        Part::Rod(_) => "connecting rod",
        Part::Piston(_) => "piston",
    };
    let own = card.and_then(|text| Card::from_toml(text).ok()).map(|card| card.name);
    let material = own.or_else(|| job.material.name.clone()).unwrap_or_default();
    format!("{kind} {material}")
}

/// Adds an entry at the end of a log, whole or not at all.
///
/// The line goes out in one piece and is on the disk before this returns; where that fails, the log is cut back to what
/// it was. A line that an earlier crash left unfinished is cut off first: it never was an entry.
pub(crate) fn add(path: &Path, entry: &BenchEntry) -> Result<(), Failure> {
    let failed = |error: &io::Error| Failure::Unwritable { path: path.into(), reason: error.to_string() };
    let line = entry.line().map_err(layload_core::Error::from)?;
    let mut file = OpenOptions::new()
        .read(true)
        .write(true)
        .create(true)
        .truncate(false)
        .open(path)
        .map_err(|error| failed(&error))?;
    file.lock().map_err(|error| failed(&error))?;
    append(&mut file, line.as_bytes()).map_err(|error| failed(&error))?;
    // A new file is only there for good once its folder knows it.
    if let Some(folder) = path.parent() {
        let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
        if let Ok(folder) = File::open(folder) {
            let _ = folder.sync_all();
        }
    }
    Ok(())
}

fn append(file: &mut File, line: &[u8]) -> io::Result<()> {
    let mut written = Vec::new();
    file.read_to_end(&mut written)?;
    let end = written.iter().rposition(|&byte| byte == b'\n').map_or(0, |last| last + 1) as u64;
    if end < written.len() as u64 {
        file.set_len(end)?;
    }
    file.seek(SeekFrom::Start(end))?;
    let done = file.write_all(line).and_then(|()| file.sync_all());
    if done.is_err() {
        file.set_len(end)?;
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
