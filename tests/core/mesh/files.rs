//! The meshes beside the tests, and the samples.

use std::path::PathBuf;
use std::{fs, io};

use serde_json::Value;

/// A path from the top of the project.
pub(crate) fn path(name: &str) -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/..")).join(name)
}

/// Bytes of a file, its name counted from the top of the project.
pub(crate) fn bytes(name: &str) -> io::Result<Vec<u8>> {
    fs::read(path(name))
}

/// Bytes of `tests/meshes/NAME.stl`.
pub(crate) fn test_mesh(name: &str) -> io::Result<Vec<u8>> {
    bytes(&format!("tests/meshes/{name}.stl"))
}

/// Values each test mesh and sample was built from.
pub(crate) fn truths() -> io::Result<Value> {
    Ok(serde_json::from_slice::<Value>(&bytes("tests/meshes/truth.json")?)?["files"].take())
}

/// What `trimesh` and `shapely` make of the samples and of four plain solids.
pub(crate) fn references() -> io::Result<Value> {
    Ok(serde_json::from_slice::<Value>(&bytes("tests/reference/sections/reference.json")?)?["meshes"].take())
}

/// A number of a JSON file; NaN, which fails every comparison, when it is not there.
pub(crate) fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or(f64::NAN)
}

/// Three numbers of a JSON file.
pub(crate) fn triple(value: &Value) -> [f64; 3] {
    [0, 1, 2].map(|k| number(&value[k]))
}
