//! Compiled plugins are kept, and only where nobody else may write.

use std::fs;
use std::time::Instant;

use layload_host::{Cache, Cancel, Limits, PluginHost};

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
    session.check(&small_rod(), &job().as_str().into()).unwrap();
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
