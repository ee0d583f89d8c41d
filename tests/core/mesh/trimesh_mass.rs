//! C17: mass properties against `trimesh` on the same facets (tests/reference/sections/reference.json).

use layload_core::mesh::{LengthUnit, Mesh};
use nalgebra::{Matrix3, Vector3};

use super::{Tested, files};

/// Tolerance of row C17, relative to the volume, the size, and the trace of the inertia.
const C17: f64 = 1e-9;

#[test]
fn volume_centroid_and_inertia() -> Tested {
    let references = files::references()?;
    let meshes = references.as_object().ok_or("no meshes")?;
    assert_eq!(meshes.len(), 9);
    for (name, reference) in meshes {
        let (mesh, _) = Mesh::from_stl(&files::bytes(name)?, LengthUnit::Millimetre)?;
        assert_eq!(mesh.facets().len() as u64, reference["facets"].as_u64().unwrap_or(0), "{name}");
        let found = mesh.mass_properties();
        let (low, high) = mesh.bounds();
        let size = (high - low).norm() * 1e3;

        let volume = files::number(&reference["volume_mm3"]);
        assert!((found.volume * 1e9 / volume - 1.0).abs() < C17, "{name}: {} mm³ is not {volume}", found.volume * 1e9);

        let centroid = Vector3::from(files::triple(&reference["centroid_mm"]));
        let apart = (found.centroid.coords * 1e3 - centroid).norm();
        assert!(apart < C17 * size, "{name}: centroids {apart} mm apart");

        let rows = [0, 1, 2].map(|k| Vector3::from(files::triple(&reference["inertia_mm5"][k])));
        let inertia = Matrix3::from_columns(&rows).transpose();
        let apart = (found.inertia() * 1e15 - inertia).abs().max();
        assert!(apart < C17 * inertia.trace(), "{name}: {} is not {inertia}", found.inertia() * 1e15);
    }
    Ok(())
}
