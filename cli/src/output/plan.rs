use std::path::{Path, PathBuf};
use std::{fs, io};

use super::form::Form;
use super::staged::{Staged, append_to, takes_files};
use super::target::{Target, folder_of, unwritable};
use crate::failure::Failure;
use crate::visible::shown;

/// Files that a command will write, and those that it reads.
#[derive(Debug, Default)]
pub(crate) struct Plan {
    overwrite: bool,
    files: Vec<PathBuf>,
    folders: Vec<PathBuf>,
    taken: Vec<Identity>,
}

/// Files that may be written: every one has a place, and none is an input or another one of them.
#[derive(Debug)]
#[must_use]
pub(crate) struct Outputs {
    overwrite: bool,
    folders: Vec<PathBuf>,
}

impl Plan {
    /// `overwrite` is whether files that are there may be replaced.
    pub(crate) fn new(overwrite: bool) -> Self {
        Self { overwrite, ..Self::default() }
    }

    /// Adds files that the command reads.
    pub(crate) fn reading<'a>(mut self, inputs: impl IntoIterator<Item = &'a Path>) -> Self {
        self.taken.extend(inputs.into_iter().filter_map(|path| Identity::of(path, Role::Input)));
        self
    }

    /// Adds a file to write; one whose name says that it is something else is refused.
    pub(crate) fn file(mut self, path: &Path, form: Form) -> Result<Self, Failure> {
        form.fits(path)?;
        self.files.push(path.into());
        Ok(self)
    }

    /// Adds files in a folder, which is made where it is missing; `option` is the one that names it.
    pub(crate) fn folder(mut self, folder: &Path, names: &[&str], option: &str) -> Result<Self, Failure> {
        if folder.exists() && !folder.is_dir() {
            return Err(Failure::Refused {
                message: format!("{} is not a folder", shown(folder)),
                help: format!("{option} takes a folder, which is made where it is missing"),
            });
        }
        self.files.extend(names.iter().map(|name| folder.join(name)));
        self.folders.push(folder.into());
        Ok(self)
    }

    /// Looks whether every file has a place. Nothing is left behind by that.
    pub(crate) fn checked(mut self) -> Result<Outputs, Failure> {
        for folder in &self.folders {
            takes_files(nearest(folder)).map_err(|error| unwritable(folder, &error))?;
        }
        for path in &self.files {
            let target = Target::of(path, self.overwrite)?;
            if let Target::Stream(_) = target {
                continue;
            }
            // Files of a folder that is still to be made have that folder's place.
            if folder_of(path).exists() || !self.folders.iter().any(|folder| folder == folder_of(path)) {
                target.writable(path)?;
            }
            let (Target::New(real) | Target::Replaced(real) | Target::Stream(real)) = &target;
            let Some(own) = Identity::of(real, Role::Output(path.clone())) else { continue };
            if let Some(other) = self.taken.iter().find(|other| other.same_file(&own)) {
                return Err(other.refused(path));
            }
            self.taken.push(own);
        }
        Ok(Outputs { overwrite: self.overwrite, folders: self.folders })
    }
}

impl Outputs {
    /// Writes files, none of which gets its name before all of them are written.
    pub(crate) fn write(&self, files: &[(PathBuf, Vec<u8>)]) -> Result<(), Failure> {
        if files.is_empty() {
            return Ok(());
        }
        for folder in &self.folders {
            fs::create_dir_all(folder).map_err(|error| unwritable(folder, &error))?;
        }
        let mut staged = Vec::new();
        let mut streams = Vec::new();
        for (path, bytes) in files {
            match Target::of(path, self.overwrite)? {
                Target::Stream(stream) => streams.push((path, stream, bytes)),
                Target::New(real) => staged.push((path, Staged::new(&real, bytes, false))),
                Target::Replaced(real) => staged.push((path, Staged::new(&real, bytes, true))),
            }
        }
        let whole: Result<Vec<_>, (&PathBuf, io::Error)> = staged
            .into_iter()
            .map(|(path, file)| file.map(|file| (path, file)).map_err(|error| (path, error)))
            .collect();
        let whole = whole.map_err(|(path, error)| unwritable(path, &error))?;
        for (path, stream, bytes) in streams {
            append_to(&stream, bytes).map_err(|error| unwritable(path, &error))?;
        }
        for (path, file) in whole {
            match file.named() {
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
                    return Err(Failure::Exists { path: path.clone() });
                }
                other => other.map_err(|error| unwritable(path, &error))?,
            }
        }
        Ok(())
    }

    /// Writes one file.
    pub(crate) fn write_one(&self, path: &Path, bytes: Vec<u8>) -> Result<(), Failure> {
        self.write(&[(path.into(), bytes)])
    }
}

/// The folder itself, or the nearest above it that is there.
fn nearest(folder: &Path) -> &Path {
    let there = folder.ancestors().find(|above| !above.as_os_str().is_empty() && above.exists());
    there.unwrap_or(Path::new("."))
}

/// One file, whatever it is called.
#[derive(Debug)]
struct Identity {
    role: Role,
    /// Name with all links followed.
    real: PathBuf,
    /// Its number on its disk, which all its names share.
    number: Option<(u64, u64)>,
}

#[derive(Debug)]
enum Role {
    Input,
    Output(PathBuf),
}

impl Identity {
    /// `None` of what is no file on disk.
    fn of(path: &Path, role: Role) -> Option<Self> {
        let meta = fs::metadata(path).ok();
        if meta.as_ref().is_some_and(|meta| !meta.is_file()) {
            return None;
        }
        let by_folder = || Some(fs::canonicalize(folder_of(path)).ok()?.join(path.file_name()?));
        let real = fs::canonicalize(path).ok().or_else(by_folder).unwrap_or_else(|| path.into());
        Some(Self { role, real, number: meta.as_ref().and_then(number) })
    }

    fn same_file(&self, other: &Self) -> bool {
        self.real == other.real || (self.number.is_some() && self.number == other.number)
    }

    /// Why the file cannot be written under `path`.
    fn refused(&self, path: &Path) -> Failure {
        match &self.role {
            Role::Input => Failure::Refused {
                message: format!("{} is read by this command and would be overwritten", shown(path)),
                help: "give another name; an input is never replaced, not even with --overwrite".into(),
            },
            Role::Output(other) if other == path => Failure::Refused {
                message: format!("{} is to be written twice", shown(path)),
                help: "give each file a name of its own".into(),
            },
            Role::Output(other) => Failure::Refused {
                message: format!("{} and {} are one file", shown(other), shown(path)),
                help: "give each file a name of its own".into(),
            },
        }
    }
}

#[cfg(unix)]
#[allow(clippy::unnecessary_wraps)] // Other systems do not number files.
fn number(meta: &fs::Metadata) -> Option<(u64, u64)> {
    use std::os::unix::fs::MetadataExt;
    Some((meta.dev(), meta.ino()))
}

#[cfg(not(unix))]
fn number(_: &fs::Metadata) -> Option<(u64, u64)> {
    None
}
