use crate::Error;
use crate::job::PrintPose;
use crate::mesh::Mesh;
use crate::part::Frame;
use crate::print::PrintSettings;
use crate::report::FacetValues;

/// Print settings in the frame of a part.
///
/// # Errors
///
/// Where the build direction has no length.
pub fn posed_in(pose: PrintPose, print: PrintSettings, frame: &Frame) -> Result<PrintSettings, Error> {
    let build = match pose {
        PrintPose::Named(pose) => pose.in_part_frame(),
        PrintPose::Mesh(direction) => frame.direction(&direction),
    };
    Ok(PrintSettings { build, ..print }.checked()?)
}

/// Joins one number for every facet with a part's surface in the file.
pub(crate) fn facet_values(mesh: &Mesh, frame: &Frame, values: Vec<Option<f64>>) -> FacetValues {
    FacetValues {
        points_mm: mesh.points().iter().map(|point| frame.to_file_mm(point)).collect(),
        facets: mesh.facets().to_vec(),
        values,
    }
}
