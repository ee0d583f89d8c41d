//! Compiled plugins kept between runs.

use std::fmt::Write as _;
use std::fs::{self, File};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::io::{Read as _, Write as _};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use sha2::{Digest, Sha256};
use thiserror::Error;
use wasmtime::Engine;
use wasmtime::component::Component;

/// A folder of compiled plugins that nobody but the user may write to: what lies there is run as machine code.
#[derive(Debug, Clone)]
pub struct Cache {
    folder: PathBuf,
}

/// Why a folder does not serve as a cache.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[non_exhaustive]
pub enum CacheError {
    /// The user has no folder for caches.
    #[error("this user has no folder for caches")]
    NoFolder,
    /// It cannot be made or looked at.
    #[error("{} cannot be used: {reason}", folder.display())]
    Unusable {
        /// The folder.
        folder: PathBuf,
        /// What the system says.
        reason: String,
    },
    /// Others may put files there, or another folder in its place.
    #[error("others may write to {}", folder.display())]
    Open {
        /// The folder, or the one above it that is open.
        folder: PathBuf,
    },
}

/// First bytes of a kept plugin; the last of them is the number of this form.
const MARK: [u8; 16] = *b"layload plugin 2";

/// Bytes of a SHA-256 digest.
const DIGEST: usize = 32;

/// Largest file that is read: a component of the largest size becomes less than this.
const LARGEST: u64 = 1 << 30;

/// Plugins that are kept, the last used of them.
const MOST_KEPT: usize = 8;

/// Plugins that were not used for so long are not kept.
const KEPT_FOR: Duration = Duration::from_secs(90 * 24 * 3600);

impl Cache {
    /// In a folder, which is made if it is missing; `None` if it cannot be made or others may write to it.
    pub fn in_folder(folder: &Path) -> Option<Self> {
        Self::open(folder).ok()
    }

    /// The same, with the reason.
    pub fn open(folder: &Path) -> Result<Self, CacheError> {
        let unusable =
            |error: std::io::Error| CacheError::Unusable { folder: folder.into(), reason: error.to_string() };
        make_private(folder).map_err(unusable)?;
        // A link to the folder is as good as whoever may change it.
        let itself = fs::symlink_metadata(folder).map_err(unusable)?;
        let folder = fs::canonicalize(folder).map_err(unusable)?;
        if itself.is_symlink() || !only_ours(&folder) {
            return Err(CacheError::Open { folder });
        }
        if let Some(above) = folder.ancestors().skip(1).find(|above| !holds_still(above)) {
            return Err(CacheError::Open { folder: above.into() });
        }
        Ok(Self { folder })
    }

    /// Where the system keeps caches of the user.
    pub fn of_user() -> Option<Self> {
        Self::open_of_user().ok()
    }

    /// The same, with the reason.
    pub fn open_of_user() -> Result<Self, CacheError> {
        let absolute = |name: &str| std::env::var_os(name).map(PathBuf::from).filter(|path| path.is_absolute());
        let base = absolute("XDG_CACHE_HOME")
            .or_else(|| absolute("LOCALAPPDATA"))
            .or_else(|| Some(absolute("HOME")?.join(".cache")))
            .ok_or(CacheError::NoFolder)?;
        Self::open(&base.join("layload"))
    }

    /// Its compiled form from the cache, or compiled now and kept for the next time.
    pub(crate) fn component(&self, engine: &Engine, wasm: &[u8]) -> wasmtime::Result<Component> {
        let name = name(engine, wasm);
        let path = self.folder.join(&name);
        match kept(&path, &name) {
            Kept::Whole(compiled) => {
                // SAFETY: these bytes have the digest that `keep` wrote before them, which covers the plugin's own digest
                // and the engine's version and settings, and the folder is writable for nobody but the user: so they are
                // what this engine made of this plugin.
                if let Ok(component) = unsafe { Component::deserialize(engine, compiled) } {
                    // What is used last is kept longest; a clock that cannot be set only makes it go sooner.
                    let _ = File::open(&path).and_then(|file| file.set_modified(SystemTime::now()));
                    return Ok(component);
                }
                let _ = fs::remove_file(&path);
            }
            Kept::Damaged => {
                let _ = fs::remove_file(&path);
            }
            Kept::Missing => {}
        }
        let component = Component::new(engine, wasm)?;
        // Without a cache the next start is slow, and that is all.
        if self.keep(&path, &name, &component).is_ok() {
            self.tidy(&path);
        }
        Ok(component)
    }

    fn keep(&self, path: &Path, name: &str, component: &Component) -> wasmtime::Result<()> {
        let compiled = component.serialize()?;
        let mut file = tempfile::Builder::new().prefix(PARTIAL).tempfile_in(&self.folder)?;
        file.write_all(&MARK)?;
        file.write_all(&digest(name, &compiled))?;
        file.write_all(&compiled)?;
        file.as_file().sync_all()?;
        file.persist(path)?;
        Ok(())
    }

    /// Takes away what was not used for long, what is more than is kept, and what a stopped program left half written; only
    /// files that this cache made.
    fn tidy(&self, newest: &Path) {
        let Ok(listed) = fs::read_dir(&self.folder) else { return };
        let mut found: Vec<(SystemTime, PathBuf)> = listed
            .filter_map(Result::ok)
            .filter(|entry| entry.path() != newest && is_own(&entry.file_name().to_string_lossy()))
            .filter_map(|entry| Some((entry.metadata().ok()?.modified().ok()?, entry.path())))
            .collect();
        found.sort_by(|a, b| b.cmp(a));
        let old = |time: &SystemTime| SystemTime::now().duration_since(*time).is_ok_and(|age| age > KEPT_FOR);
        for (rank, (time, path)) in found.iter().enumerate() {
            if rank + 1 >= MOST_KEPT || old(time) {
                let _ = fs::remove_file(path);
            }
        }
    }
}

/// What a file of the cache is.
enum Kept {
    Missing,
    Damaged,
    Whole(Vec<u8>),
}

/// Reads a kept plugin into memory and holds it against its digest there, so that nothing can change it in between.
fn kept(path: &Path, name: &str) -> Kept {
    let Ok(file) = File::open(path) else { return Kept::Missing };
    let mut bytes = Vec::new();
    if file.take(LARGEST).read_to_end(&mut bytes).is_err() {
        return Kept::Damaged;
    }
    let Some((head, compiled)) = bytes.split_at_checked(MARK.len() + DIGEST) else { return Kept::Damaged };
    let (mark, written) = head.split_at(MARK.len());
    if mark != MARK || written != digest(name, compiled) {
        return Kept::Damaged;
    }
    Kept::Whole(bytes.split_off(MARK.len() + DIGEST))
}

/// Binds compiled bytes to the plugin they were made of and to the engine that made them: the name has the digest of both.
fn digest(name: &str, compiled: &[u8]) -> [u8; DIGEST] {
    Sha256::new().chain_update(MARK).chain_update(name).chain_update(compiled).finalize().into()
}

/// How names of files begin that are still being written.
const PARTIAL: &str = ".kept-";

/// Whether a file's name is one that this cache gives.
fn is_own(name: &str) -> bool {
    let digits = |text: &str, count: usize| text.len() == count && text.bytes().all(|byte| byte.is_ascii_hexdigit());
    name.starts_with(PARTIAL)
        || name.split_once('-').is_some_and(|(wasm, engine)| digits(wasm, 64) && digits(engine, 16))
}

/// Digest of the plugin and of everything in the engine that decides how it is compiled, its version included.
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

/// Whether a folder above the cache is one in which nobody else can put another folder in the place of the next: ours or the
/// system's, and written to by its owner alone. In one with the sticky bit others write too, but rename only what is theirs;
/// a group whose number is its owner's is that owner's alone, as many systems set it up.
#[cfg(unix)]
fn holds_still(folder: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let ours = rustix::process::geteuid().as_raw();
    fs::symlink_metadata(folder).is_ok_and(|meta| {
        let (uid, mode) = (meta.uid(), meta.mode());
        let sticky = mode & 0o1000 != 0;
        let group = mode & 0o020 != 0 && meta.gid() != uid;
        meta.is_dir() && (uid == ours || uid == 0) && (sticky || !(mode & 0o002 != 0 || group))
    })
}

/// Elsewhere the folders of a user are private by themselves.
#[cfg(not(unix))]
fn only_ours(folder: &Path) -> bool {
    fs::symlink_metadata(folder).is_ok_and(|meta| meta.is_dir())
}

#[cfg(not(unix))]
fn holds_still(_: &Path) -> bool {
    true
}
