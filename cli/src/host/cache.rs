//! Compiled plugins kept between runs.

use std::fmt::Write as _;
use std::fs;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::{Path, PathBuf};

use sha2::{Digest, Sha256};
use wasmtime::Engine;
use wasmtime::component::Component;

/// A folder of compiled plugins that nobody but the user may write to: what lies there is run as machine code.
#[derive(Debug, Clone)]
pub struct Cache {
    folder: PathBuf,
}

impl Cache {
    /// In a folder, which is made if it is missing; `None` if it cannot be made or others may write to it.
    pub fn in_folder(folder: &Path) -> Option<Self> {
        make_private(folder).ok()?;
        only_ours(folder).then(|| Self { folder: folder.into() })
    }

    /// Where the system keeps caches of the user.
    pub fn of_user() -> Option<Self> {
        let absolute = |name: &str| std::env::var_os(name).map(PathBuf::from).filter(|path| path.is_absolute());
        let base = absolute("XDG_CACHE_HOME")
            .or_else(|| absolute("LOCALAPPDATA"))
            .or_else(|| Some(absolute("HOME")?.join(".cache")))?;
        Self::in_folder(&base.join("layload"))
    }

    /// Its compiled form from the cache, or compiled now and kept for the next time.
    pub(crate) fn component(&self, engine: &Engine, wasm: &[u8]) -> wasmtime::Result<Component> {
        let path = self.folder.join(name(engine, wasm));
        // SAFETY: the folder is writable for nobody but the user, and the name holds the digest of the plugin and of the
        // engine's settings, so this is what `keep` wrote. A damaged file is refused by its own header.
        if let Ok(component) = unsafe { Component::deserialize_file(engine, &path) } {
            return Ok(component);
        }
        let component = Component::new(engine, wasm)?;
        // Without a cache the next start is slow, and that is all.
        let _ = self.keep(&path, &component);
        Ok(component)
    }

    fn keep(&self, path: &Path, component: &Component) -> wasmtime::Result<()> {
        let file = tempfile::NamedTempFile::new_in(&self.folder)?;
        fs::write(file.path(), component.serialize()?)?;
        file.persist(path)?;
        Ok(())
    }
}

/// Digest of the plugin and of everything in the engine that decides how it is compiled.
fn name(engine: &Engine, wasm: &[u8]) -> String {
    let mut settings = DefaultHasher::new();
    engine.precompile_compatibility_hash().hash(&mut settings);
    let digest = Sha256::digest(wasm).iter().fold(String::new(), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    });
    format!("{digest}-{:016x}", settings.finish())
}

#[cfg(unix)]
fn make_private(folder: &Path) -> std::io::Result<()> {
    use std::os::unix::fs::DirBuilderExt;
    fs::DirBuilder::new().recursive(true).mode(0o700).create(folder)
}

#[cfg(not(unix))]
fn make_private(folder: &Path) -> std::io::Result<()> {
    fs::create_dir_all(folder)
}

#[cfg(unix)]
fn only_ours(folder: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let ours = rustix::process::geteuid().as_raw();
    fs::symlink_metadata(folder).is_ok_and(|meta| meta.is_dir() && meta.uid() == ours && meta.mode() & 0o022 == 0)
}

/// Elsewhere the folders of a user are private by themselves.
#[cfg(not(unix))]
fn only_ours(folder: &Path) -> bool {
    fs::symlink_metadata(folder).is_ok_and(|meta| meta.is_dir())
}
