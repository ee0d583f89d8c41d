use std::fs::{self, OpenOptions, Permissions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

use tempfile::{Builder, NamedTempFile};

use super::target::folder_of;

/// Temporary files that are there now, so that a program that is stopped leaves none behind.
static THERE: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());

fn there() -> MutexGuard<'static, Vec<PathBuf>> {
    THERE.lock().unwrap_or_else(PoisonError::into_inner)
}

/// A file written whole, under a temporary name in the folder of its own.
#[derive(Debug)]
pub(super) struct Staged {
    file: Option<NamedTempFile>,
    real: PathBuf,
    replaces: bool,
}

impl Staged {
    /// Writes it; `replaces` is whether one of its name is there, whose permissions it then has.
    pub(super) fn new(real: &Path, bytes: &[u8], replaces: bool) -> io::Result<Self> {
        watch_for_stops();
        let file = temporary(folder_of(real))?;
        let mut staged = Self { file: Some(file), real: real.into(), replaces };
        let permissions = if replaces { Some(fs::metadata(real)?.permissions()) } else { usual() };
        if let Some(file) = &mut staged.file {
            file.write_all(bytes)?;
            if let Some(permissions) = permissions {
                file.as_file().set_permissions(permissions)?;
            }
            file.as_file().sync_all()?;
        }
        Ok(staged)
    }

    /// Gives it its name.
    pub(super) fn named(mut self) -> io::Result<()> {
        let Some(file) = self.file.take() else { return Ok(()) };
        let name = file.path().to_path_buf();
        let kept = if self.replaces { file.persist(&self.real) } else { file.persist_noclobber(&self.real) };
        forget(&name);
        kept.map(|_| ()).map_err(|error| error.error)
    }
}

impl Drop for Staged {
    fn drop(&mut self) {
        if let Some(file) = self.file.take() {
            let name = file.path().to_path_buf();
            drop(file);
            forget(&name);
        }
    }
}

/// Whether a folder takes a new file, by making one and taking it away again: permissions alone do not tell.
pub(super) fn takes_files(folder: &Path) -> io::Result<()> {
    watch_for_stops();
    let file = temporary(folder)?;
    let name = file.path().to_path_buf();
    let gone = file.close();
    forget(&name);
    gone
}

/// Writes to a pipe or a device; it waits for a pipe's reader.
pub(super) fn append_to(stream: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).open(stream)?;
    match file.write_all(bytes).and_then(|()| file.flush()) {
        // Whoever read it has seen enough.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        other => other,
    }
}

/// Known from the moment it is there: whoever stops the program waits for the lock.
fn temporary(folder: &Path) -> io::Result<NamedTempFile> {
    let mut there = there();
    let file = Builder::new().prefix(".layload-").tempfile_in(folder).map_err(|error| {
        // The temporary name that the error has in it is nobody's business.
        let bare = error.get_ref().and_then(|inner| inner.source()).map(ToString::to_string);
        bare.map_or_else(|| io::Error::from(error.kind()), |bare| io::Error::new(error.kind(), bare))
    })?;
    there.push(file.path().into());
    Ok(file)
}

fn forget(name: &Path) {
    there().retain(|known| known != name);
}

/// Temporary files are private; a finished one is for everybody, as any other output.
#[cfg(unix)]
#[allow(clippy::unnecessary_wraps, reason = "elsewhere there is nothing to set")]
fn usual() -> Option<Permissions> {
    use std::os::unix::fs::PermissionsExt;
    Some(Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn usual() -> Option<Permissions> {
    None
}

/// From the first temporary file on, a stop by the keyboard or by the system takes them away first.
#[cfg(unix)]
fn watch_for_stops() {
    use signal_hook::consts::{SIGINT, SIGTERM};
    use signal_hook::iterator::Signals;
    use signal_hook::low_level::emulate_default_handler;
    static WATCHING: std::sync::Once = std::sync::Once::new();
    WATCHING.call_once(|| {
        // Without the watch a stopped program leaves a temporary file, and that is all.
        let Ok(mut signals) = Signals::new([SIGINT, SIGTERM]) else { return };
        let watch = move || {
            for signal in &mut signals {
                // Kept locked to the end: no other file may come after this.
                let there = there();
                for name in there.iter() {
                    let _ = fs::remove_file(name);
                }
                let _ = emulate_default_handler(signal);
            }
        };
        let _ = std::thread::Builder::new().name("stops".into()).spawn(watch);
    });
}

#[cfg(not(unix))]
fn watch_for_stops() {}
