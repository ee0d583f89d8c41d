//! The component, samples and one compiled plugin for all tests.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use layload_host::{Cache, Cancel, Limits, Plugin, PluginHost, Session};

/// Top of the project.
pub(crate) fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The built component.
pub(crate) fn component() -> PathBuf {
    let path = top().join("target/plugin/layload.wasm");
    assert!(path.exists(), "build the plugin first: bash wasm-plugin/build.sh");
    path
}

/// A folder for one test; the name must be the test's own.
pub(crate) fn folder(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("plugin").join(name);
    fs::create_dir_all(&path).unwrap();
    path
}

/// A host whose compiled plugins are shared by the tests.
pub(crate) fn host() -> &'static PluginHost {
    static HOST: OnceLock<PluginHost> = OnceLock::new();
    HOST.get_or_init(|| PluginHost::new(Some(Cache::in_folder(&folder("cache-of-all")).unwrap())).unwrap())
}

/// The plugin.
pub(crate) fn plugin() -> &'static Plugin {
    static PLUGIN: OnceLock<Plugin> = OnceLock::new();
    PLUGIN.get_or_init(|| host().load(&component()).unwrap())
}

/// A session with usual limits and a host that watches nothing.
pub(crate) fn session() -> Session {
    plugin().open(Limits::default(), Cancel::new(), |_, _, _| {}).unwrap()
}

/// A file of the project.
pub(crate) fn bytes(name: &str) -> Vec<u8> {
    fs::read(top().join(name)).unwrap()
}

/// A text of the project.
pub(crate) fn text(name: &str) -> String {
    String::from_utf8(bytes(name)).unwrap()
}

/// The usual job.
pub(crate) fn job() -> String {
    text("samples/bench_single.toml")
}

/// The smallest sound rod.
pub(crate) fn small_rod() -> Vec<u8> {
    bytes("tests/meshes/solid_header.stl")
}

/// Names of the samples that end in `extension`.
pub(crate) fn samples(extension: &str) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(top().join("samples"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|found| found == extension))
        .map(|path| format!("samples/{}", path.file_name().unwrap().to_string_lossy()))
        .collect();
    names.sort();
    names
}

/// Whether a job's rings go into a part: those of one sample fit that rod alone, and are refused in the others.
pub(crate) fn goes_with(mesh: &str, job: &str) -> bool {
    let only = match job {
        "samples/bench_bearings.toml" => "samples/bearing_rod.stl",
        "samples/bench_bushed.toml" => "samples/bushed_rod.stl",
        _ => return true,
    };
    !mesh.ends_with("_rod.stl") || mesh == only
}

/// A mesh that takes long: the rod over and over, each far from the last, so that every one is read and searched.
pub(crate) fn slow_mesh(copies: u32) -> Vec<u8> {
    let rod = small_rod();
    let facets = &rod[84..];
    let mut stl = rod[..80].to_vec();
    stl.extend((u32::try_from(facets.len() / 50).unwrap() * copies).to_le_bytes());
    for copy in 0..copies {
        #[allow(clippy::cast_precision_loss)]
        let shift = copy as f32 * 200.0;
        for facet in facets.chunks_exact(50) {
            let mut facet = facet.to_vec();
            for corner in 0..3 {
                let at = 12 + corner * 12;
                let x = f32::from_le_bytes(facet[at..at + 4].try_into().unwrap());
                facet[at..at + 4].copy_from_slice(&(x + shift).to_le_bytes());
            }
            stl.extend(facet);
        }
    }
    stl
}
