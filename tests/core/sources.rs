//! The project's own Rust files, for tests of what stands in them.

use std::fs;
use std::path::{Path, PathBuf};

use walkdir::WalkDir;

/// A folder or file of the repository.
pub(crate) fn repository(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(name)
}

/// Every Rust file below a folder, in order of their paths, with its text.
pub(crate) fn sources(folder: &Path) -> Vec<(PathBuf, String)> {
    let paths = WalkDir::new(folder).into_iter().map(|entry| entry.unwrap().into_path());
    let rust = paths.filter(|path| path.extension().is_some_and(|ending| ending == "rs"));
    let mut found: Vec<_> = rust.map(|path| (path.clone(), fs::read_to_string(path).unwrap())).collect();
    found.sort();
    found
}
