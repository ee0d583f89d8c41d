//! C17: mass properties against `trimesh` on the same facets (tests/reference/sections/reference.json).

use layload_core::LengthUnit;
use layload_core::mesh::Mesh;
use nalgebra::{Matrix3, Vector3};

use super::files;

/// Worst miss of volume, of centroids over the size, and of inertia tensors over their trace.
pub(crate) fn worst() -> Result<[f64; 3], Box<dyn std::error::Error>> {
    let references = files::references()?;
    let meshes = references.as_object().ok_or("no meshes")?;
    assert_eq!(meshes.len(), 9);
    let mut worst = [0.0_f64; 3];
    for (name, reference) in meshes {
        let (mesh, _) = Mesh::from_stl(&files::bytes(name)?, LengthUnit::Millimetre)?;
        assert_eq!(mesh.facets().len() as u64, reference["facets"].as_u64().unwrap_or(0), "{name}");
        let found = mesh.mass_properties();
        let (low, high) = mesh.bounds();
        let size = (high - low).norm() * 1e3;
        let volume = files::number(&reference["volume_mm3"]);
        let centroid = Vector3::from(files::triple(&reference["centroid_mm"]));
        let rows = [0, 1, 2].map(|k| Vector3::from(files::triple(&reference["inertia_mm5"][k])));
        let inertia = Matrix3::from_columns(&rows).transpose();
        let misses = [
            (found.volume * 1e9 / volume - 1.0).abs(),
            (found.centroid.coords * 1e3 - centroid).norm() / size,
            (found.inertia() * 1e15 - inertia).abs().max() / inertia.trace(),
        ];
        worst = core::array::from_fn(|k| worst[k].max(misses[k]));
    }
    Ok(worst)
}
