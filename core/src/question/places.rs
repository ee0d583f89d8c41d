//! From a mesh to the bores and flat faces that can be places of a part of any kind.

use super::load::{PartSource, load_as_any};
use crate::Error;
use crate::job::Job;
use crate::kind::{Kind, Watcher};
use crate::part::{AnyPart, FlatFace};
use crate::report::{CAUTIONS, FaceReport, FeaturesReport, SCHEMA_VERSION};
use crate::units::MM;

/// Lists the bores and flat faces of a mesh, whatever the part is: each can be a place in a job for a part of any kind.
///
/// Of the job only what it says of the mesh counts.
///
/// # Errors
///
/// Where the mesh is not closed, its length fits another unit, it holds several bodies as large as each other, or the watcher
/// stops the work.
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::places;
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// let found = places(&stl, &Job::default(), &mut ())?;
/// assert_eq!(found.bores.len(), 2);
/// assert!(!found.faces.is_empty());
/// # Ok(())
/// # }
/// ```
pub fn places<'a>(
    source: impl Into<PartSource<'a>>,
    job: &Job,
    watcher: &mut dyn Watcher,
) -> Result<FeaturesReport, Error> {
    let part = load_as_any(source.into(), job, watcher)?;
    Ok(FeaturesReport {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        bores: part.bores(),
        faces: part.faces.iter().map(|face| told(&part, face)).collect(),
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    })
}

fn told(part: &AnyPart, face: &FlatFace) -> FaceReport {
    let mesh = &part.mesh;
    let size = |facet: usize| mesh.area_vector(facet).norm();
    let largest = face.facets.iter().copied().reduce(|best, next| if size(next) > size(best) { next } else { best });
    let on = largest.map_or(face.center, |facet| mesh.middle(facet));
    FaceReport {
        area_mm2: face.area * 1e6,
        center_mm: [face.center.x * MM, face.center.y * MM, face.center.z * MM],
        on_mm: [on.x * MM, on.y * MM, on.z * MM],
        direction: face.normal.into(),
        facets: face.facets.len(),
    }
}
