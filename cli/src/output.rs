//! Where answers go: standard output, and files written whole or not at all.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use serde::Serialize;
use tempfile::NamedTempFile;

use crate::failure::Failure;

/// Prints a report as JSON, or what `text` makes of it.
pub(crate) fn print_report(report: &impl Serialize, json: bool, text: impl FnOnce() -> String) -> Result<(), Failure> {
    if json { print_json(report) } else { print_text(&text()) }
}

/// Prints a report as JSON.
pub(crate) fn print_json(report: &impl Serialize) -> Result<(), Failure> {
    printed(|out| {
        serde_json::to_writer_pretty(&mut *out, report)?;
        writeln!(out)
    })
}

/// Prints text.
pub(crate) fn print_text(text: &str) -> Result<(), Failure> {
    printed(|out| out.write_all(text.as_bytes()))
}

fn printed(write: impl FnOnce(&mut io::StdoutLock<'static>) -> io::Result<()>) -> Result<(), Failure> {
    let mut out = io::stdout().lock();
    match write(&mut out).and_then(|()| out.flush()) {
        // Whoever read our output has seen enough; the answer stands all the same.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        other => Ok(other?),
    }
}

/// Refuses a name for a new file that is taken, unless it may be overwritten; before any work is done.
pub(crate) fn check_free(path: &Path, overwrite: bool) -> Result<(), Failure> {
    if !overwrite && path.exists() { Err(Failure::Exists { path: path.into() }) } else { Ok(()) }
}

/// Writes several files, none of which gets its name before all of them are written.
pub(crate) fn write_files(files: &[(PathBuf, Vec<u8>)], overwrite: bool) -> Result<(), Failure> {
    let mut written = Vec::new();
    for (path, bytes) in files {
        written.push((path, staged(path, bytes)?));
    }
    written.into_iter().try_for_each(|(path, file)| named(path, file, overwrite))
}

/// Writes a file under a temporary name beside it and then gives it its own, so that no half a file is ever seen.
pub(crate) fn write_file(path: &Path, bytes: &[u8], overwrite: bool) -> Result<(), Failure> {
    named(path, staged(path, bytes)?, overwrite)
}

/// A file written whole, under a temporary name in the folder of its own.
fn staged(path: &Path, bytes: &[u8]) -> Result<NamedTempFile, Failure> {
    let failed = |error: &io::Error| Failure::Unwritable { path: path.into(), reason: error.to_string() };
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut file = NamedTempFile::new_in(folder).map_err(|error| failed(&error))?;
    file.write_all(bytes).and_then(|()| file.as_file().sync_all()).map_err(|error| failed(&error))?;
    set_usual_permissions(file.path()).map_err(|error| failed(&error))?;
    Ok(file)
}

/// Gives a written file its name.
fn named(path: &Path, file: NamedTempFile, overwrite: bool) -> Result<(), Failure> {
    let kept = if overwrite { file.persist(path) } else { file.persist_noclobber(path) };
    match kept {
        Ok(_) => Ok(()),
        Err(error) if error.error.kind() == io::ErrorKind::AlreadyExists => Err(Failure::Exists { path: path.into() }),
        Err(error) => Err(Failure::Unwritable { path: path.into(), reason: error.error.to_string() }),
    }
}

/// Temporary files are private; a finished one is for everybody, as any other output.
#[cfg(unix)]
fn set_usual_permissions(path: &Path) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    fs::set_permissions(path, fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn set_usual_permissions(path: &Path) -> io::Result<()> {
    fs::metadata(path).map(|_| ())
}
