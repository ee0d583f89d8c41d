use std::fs;
use std::path::{Component, Path, PathBuf};

use super::file::{text, within};
use super::wanted::Wanted;
use crate::failure::Failure;
use crate::visible::{shown, visible_line};

/// Files that a job, a log or a study names. Whoever wrote it may be a stranger: so only regular files in its folder or
/// below are read, unless files anywhere are allowed or the user has named the file too.
#[derive(Debug, Clone)]
pub(crate) struct Neighbours<'a> {
    by: PathBuf,
    anywhere: bool,
    given: Vec<&'a Path>,
}

impl<'a> Neighbours<'a> {
    /// Of the files that `by` names.
    pub(crate) fn of(by: &Path, anywhere: bool) -> Self {
        Self { by: by.into(), anywhere, given: Vec::new() }
    }

    /// The same where the user has named these files, which are free therefore.
    pub(crate) fn given(mut self, files: impl IntoIterator<Item = &'a Path>) -> Self {
        self.given.extend(files);
        self
    }

    /// The same of another file, which one of these named.
    pub(super) fn beside(&self, by: &Path) -> Self {
        Self { by: by.into(), ..self.clone() }
    }

    /// Where a named file lies, and its text.
    pub(crate) fn text(&self, name: &str, wanted: Wanted) -> Result<(PathBuf, String), Failure> {
        let path = self.found(name, wanted)?;
        let text = text(&path, wanted)?;
        Ok((path, text))
    }

    /// Where a named mesh lies, and its bytes.
    pub(crate) fn mesh(&self, name: &str) -> Result<(PathBuf, Vec<u8>), Failure> {
        let path = self.found(name, Wanted::Mesh)?;
        let bytes = within(&path, Wanted::Mesh)?;
        Ok((path, bytes))
    }

    /// Where a named file lies. A file outside is not even looked for where its name alone leads out.
    fn found(&self, name: &str, wanted: Wanted) -> Result<PathBuf, Failure> {
        let folder = self.by.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let path = folder.join(name);
        let outside = || Failure::Refused {
            message: format!("{} names {}, which lies outside its folder", self.teller(), visible_line(name)),
            help: format!("put that file, {}, beside it, or allow files anywhere with --any-folder", wanted.words()),
        };
        let real = fs::canonicalize(&path);
        let free = self.anywhere || real.as_ref().is_ok_and(|real| self.is_given(real));
        if !free && leads_out(name) && !fs::canonicalize(folder).is_ok_and(|folder| Path::new(name).starts_with(folder))
        {
            return Err(outside());
        }
        let real = real.map_err(|error| Failure::unreadable(&path, &error))?;
        let folder = fs::canonicalize(folder).map_err(|error| Failure::unreadable(folder, &error))?;
        if !free && !real.starts_with(folder) {
            return Err(outside());
        }
        let meta = fs::metadata(&real).map_err(|error| Failure::unreadable(&path, &error))?;
        if !meta.is_file() {
            return Err(Failure::Refused {
                message: format!(
                    "{} names {}, which is {}",
                    self.teller(),
                    visible_line(name),
                    if meta.is_dir() { "a folder" } else { "a pipe or a device, not a file" }
                ),
                help: format!("name {} in a regular file", wanted.words()),
            });
        }
        Ok(path)
    }

    fn is_given(&self, real: &Path) -> bool {
        self.given.iter().any(|given| fs::canonicalize(given).is_ok_and(|given| given == real))
    }

    fn teller(&self) -> String {
        if self.by.as_os_str().is_empty() { "the job".into() } else { shown(&self.by) }
    }
}

/// Whether a name by itself leads out of the folder from which it counts.
fn leads_out(name: &str) -> bool {
    let mut depth = 0_i32;
    for part in Path::new(name).components() {
        match part {
            Component::Normal(_) => depth += 1,
            Component::ParentDir => depth -= 1,
            Component::CurDir => {}
            Component::RootDir | Component::Prefix(_) => return true,
        }
        if depth < 0 {
            return true;
        }
    }
    false
}
