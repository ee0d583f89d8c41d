//! Compiled plugins are kept, and only where nobody else may write.

use std::fs;
use std::time::Instant;

use layload_host::{Cache, Cancel, Limits, PluginHost, Stress};

use super::setting::{component, folder, job, small_rod};

fn files(folder: &std::path::Path) -> Vec<std::path::PathBuf> {
    fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect()
}

#[test]
fn compiles_once() {
    let folder = folder("cache-compiles-once").join("kept");
    let _ = fs::remove_dir_all(&folder);
    let first = PluginHost::new(Cache::in_folder(&folder)).unwrap();
    let begun = Instant::now();
    first.load(&component()).unwrap();
    let compiled = begun.elapsed();
    assert_eq!(files(&folder).len(), 1);
    let second = PluginHost::new(Cache::in_folder(&folder)).unwrap();
    let begun = Instant::now();
    let plugin = second.load(&component()).unwrap();
    let started = begun.elapsed();
    println!("compiled in {compiled:?}, started from the cache in {started:?}");
    let mut session = plugin.open(Limits::default(), Cancel::new(), |_, _, _| {}).unwrap();
    session.check(&small_rod(), &job().as_str().into(), Stress::Sections).unwrap();
    assert_eq!(files(&folder).len(), 1);
}

#[test]
fn a_damaged_file_is_compiled_anew() {
    let folder = folder("cache-damaged").join("kept");
    let _ = fs::remove_dir_all(&folder);
    PluginHost::new(Cache::in_folder(&folder)).unwrap().load(&component()).unwrap();
    let kept = files(&folder).remove(0);
    fs::write(&kept, b"not what was kept").unwrap();
    let plugin = PluginHost::new(Cache::in_folder(&folder)).unwrap().load(&component()).unwrap();
    plugin.open(Limits::default(), Cancel::new(), |_, _, _| {}).unwrap();
    assert!(fs::metadata(&kept).unwrap().len() > 100_000, "it was not written anew");
}

/// A component that is quickly compiled: it has the interface, and every function stops.
fn quick() -> Vec<u8> {
    super::hostile::doing(&super::hostile::UNREACHABLE)
}

/// Bytes changed anywhere, cut off or added: the file is never run, taken away and made anew.
#[test]
fn no_damaged_bytes_are_run() {
    let folder = folder("cache-bytes").join("kept");
    let _ = fs::remove_dir_all(&folder);
    let wasm = quick();
    let load = || PluginHost::new(Some(Cache::open(&folder).unwrap())).unwrap().load_bytes(&wasm).map(|_| ());
    load().unwrap();
    let kept = files(&folder).remove(0);
    let whole = fs::read(&kept).unwrap();
    let changed = |seed: usize, count: usize| {
        let mut bytes = whole.clone();
        for k in 0..count {
            let at = (seed * 7919 + k * 104_729) % bytes.len();
            bytes[at] = bytes[at].wrapping_add(1 + (k % 250) as u8);
        }
        bytes
    };
    let mut bad: Vec<Vec<u8>> =
        (0..12).map(|seed| changed(seed, 400)).chain((12..40).map(|seed| changed(seed, 1))).collect();
    bad.extend([whole[..whole.len() - 1].to_vec(), whole[..40].to_vec(), Vec::new(), [&whole[..], b"x"].concat()]);
    // As an earlier version kept it: without mark and digest.
    bad.push(whole[48..].to_vec());
    for bytes in bad {
        fs::write(&kept, &bytes).unwrap();
        load().unwrap();
        assert_eq!(fs::read(&kept).unwrap(), whole, "not made anew");
    }
    assert_eq!(files(&folder).len(), 1);
}

/// What was made of one plugin is not run for another, even whole.
#[test]
fn a_kept_plugin_is_bound_to_its_own() {
    let folder = folder("cache-bound").join("kept");
    let _ = fs::remove_dir_all(&folder);
    let host = PluginHost::new(Some(Cache::open(&folder).unwrap())).unwrap();
    let (one, other) = (quick(), super::hostile::doing(&[0x00, 0x03, 0x40, 0x0c, 0x00, 0x0b, 0x0b]));
    host.load_bytes(&one).unwrap();
    let of_one = files(&folder).remove(0);
    host.load_bytes(&other).unwrap();
    let of_other = files(&folder).into_iter().find(|path| *path != of_one).unwrap();
    let whole = fs::read(&of_other).unwrap();
    fs::copy(&of_one, &of_other).unwrap();
    host.load_bytes(&other).unwrap();
    assert_eq!(fs::read(&of_other).unwrap(), whole);
}

#[test]
fn old_plugins_go_and_other_files_stay() {
    let folder = folder("cache-old").join("kept");
    let _ = fs::remove_dir_all(&folder);
    let cache = Cache::open(&folder).unwrap();
    let day = std::time::Duration::from_secs(24 * 3600);
    for age in 0..20_u32 {
        let path = folder.join(format!("{age:064x}-{age:016x}"));
        fs::write(&path, b"kept").unwrap();
        let time = std::time::SystemTime::now() - day * (1 + 20 * age);
        fs::File::options().write(true).open(&path).unwrap().set_modified(time).unwrap();
    }
    fs::write(folder.join("notes.txt"), b"mine").unwrap();
    PluginHost::new(Some(cache)).unwrap().load_bytes(&quick()).unwrap();
    // Five of the last ninety days, the new one and the notes.
    assert_eq!(files(&folder).len(), 7, "{:?}", files(&folder));
    assert!(folder.join("notes.txt").exists());
}

#[cfg(unix)]
#[test]
fn a_folder_that_others_may_write_to_is_not_used() {
    use std::os::unix::fs::PermissionsExt;
    let folder = folder("cache-open");
    fs::set_permissions(&folder, fs::Permissions::from_mode(0o777)).unwrap();
    assert!(Cache::in_folder(&folder).is_none());
    fs::set_permissions(&folder, fs::Permissions::from_mode(0o700)).unwrap();
    assert!(Cache::in_folder(&folder).is_some());
}

#[cfg(unix)]
#[test]
fn a_folder_below_one_that_others_may_write_to_is_not_used() {
    use std::os::unix::fs::PermissionsExt;

    use layload_host::CacheError;

    let above = folder("cache-above");
    let below = above.join("mine/kept");
    fs::create_dir_all(below.parent().unwrap()).unwrap();
    let set = |mode: u32| fs::set_permissions(&above, fs::Permissions::from_mode(mode)).unwrap();
    set(0o777);
    assert!(matches!(Cache::open(&below), Err(CacheError::Open { folder }) if folder.ends_with("cache-above")));
    // As the system's own folder for all: others may add to it, and rename nothing of ours.
    set(0o1777);
    assert!(Cache::open(&below).is_ok());
    set(0o755);
    assert!(Cache::open(&below).is_ok());
    let link = above.join("link");
    let _ = fs::remove_file(&link);
    std::os::unix::fs::symlink(&below, &link).unwrap();
    assert!(Cache::open(&link).is_err());
}
