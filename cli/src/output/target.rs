use std::fs::{self, Metadata, OpenOptions};
use std::io;
use std::path::{Path, PathBuf};

use super::staged::takes_files;
use crate::failure::Failure;
use crate::visible::shown;

/// Where the bytes of a file go.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Target {
    /// A name that is free; links on the way to it are followed.
    New(PathBuf),
    /// A regular file that is replaced; links to it are followed, so that they go on leading to it.
    Replaced(PathBuf),
    /// A pipe, a terminal or another device, which is written to and never replaced.
    Stream(PathBuf),
}

/// Links followed one after another before they are taken to lead round in a circle; as many as Linux follows.
const MOST_LINKS: usize = 40;

impl Target {
    /// Looks where a name leads. What cannot be written to is refused: a folder, a disk, a name without a folder, and one
    /// that is taken unless it may be overwritten.
    pub(super) fn of(path: &Path, overwrite: bool) -> Result<Self, Failure> {
        let taken = || Failure::Exists { path: path.into() };
        match fs::metadata(path) {
            Ok(meta) if meta.is_dir() => Err(Failure::Refused {
                message: format!("{} is a folder", shown(path)),
                help: "give the name of a file in it".into(),
            }),
            Ok(meta) if meta.is_file() => {
                if !overwrite {
                    return Err(taken());
                }
                let real = fs::canonicalize(path).map_err(|error| unwritable(path, &error))?;
                Ok(Self::Replaced(real))
            }
            Ok(meta) if is_stream(&meta) => Ok(Self::Stream(path.into())),
            Ok(_) => Err(Failure::Refused {
                message: format!("{} is neither a file, a pipe nor a terminal", shown(path)),
                help: "give the name of a file".into(),
            }),
            Err(error) if error.kind() == io::ErrorKind::NotFound => {
                let link = fs::symlink_metadata(path).is_ok();
                if link && !overwrite {
                    return Err(taken());
                }
                Ok(Self::New(end_of_links(path)?))
            }
            Err(error) => Err(unwritable(path, &error)),
        }
    }

    /// Whether its folder takes a new file: the file is written under another name beside it first.
    pub(super) fn writable(&self, path: &Path) -> Result<(), Failure> {
        match self {
            Self::New(real) | Self::Replaced(real) => {
                takes_files(folder_of(real)).map_err(|error| unwritable(path, &error))
            }
            Self::Stream(_) => Ok(()),
        }
    }
}

/// A pipe, or a device that takes bytes one after another. A disk does too, but what was on it would be gone.
#[cfg(unix)]
fn is_stream(meta: &Metadata) -> bool {
    use std::os::unix::fs::FileTypeExt;
    meta.file_type().is_fifo() || meta.file_type().is_char_device()
}

#[cfg(not(unix))]
fn is_stream(meta: &Metadata) -> bool {
    !meta.is_file() && !meta.is_dir()
}

/// Refuses what cannot be added to: anything but a regular file that may be written, or a free name in a folder that takes
/// files.
pub(crate) fn appendable(path: &Path) -> Result<(), Failure> {
    match Target::of(path, true)? {
        Target::Stream(_) => Err(Failure::Refused {
            message: format!("{} is a pipe or a device, which cannot be added to", shown(path)),
            help: "give the name of a file".into(),
        }),
        Target::Replaced(real) => match OpenOptions::new().append(true).open(real) {
            Ok(_) => Ok(()),
            Err(error) => Err(unwritable(path, &error)),
        },
        new @ Target::New(_) => new.writable(path),
    }
}

/// The name to which links lead, the last of them into nothing.
fn end_of_links(path: &Path) -> Result<PathBuf, Failure> {
    let mut name = path.to_path_buf();
    for _ in 0..MOST_LINKS {
        match fs::read_link(&name) {
            Ok(to) => name = folder_of(&name).join(to),
            Err(_) => return Ok(name),
        }
    }
    Err(unwritable(path, &io::Error::other("its links lead round in a circle")))
}

/// The folder of a file.
pub(super) fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

pub(super) fn unwritable(path: &Path, error: &io::Error) -> Failure {
    Failure::Unwritable { path: path.into(), reason: error.to_string() }
}
