//! Mass and section properties.

use layload_core::section::sections;

use super::Rows;
use super::row::{Measure, Source, Word};
use crate::mesh::shapes::{Region, Solid};
use crate::mesh::trimesh_mass;
use crate::section::reference_sections;

pub(super) fn rows() -> Rows {
    let closed = |id| Source { id, word: Word::ClosedForm, name: "any handbook of strength of materials" };
    let library = |id| Source {
        id,
        word: Word::GeneralLibrary,
        name: "trimesh and shapely (PyPI), tests/reference/sections/reference.json",
    };
    let exact = "rounding: the facets are the shape";
    let same = "rounding: the same facets";
    let (b, h, length) = (0.020, 0.012, 0.06);
    let mesh = Solid::prism(&Region::rectangle(b, h), 0.0, length).mesh()?;
    let cut = sections(&mesh, &[0.4 * length], false).into_iter().next().ok_or("no section")?.properties;
    let (least, most) = cut.principal();
    let (area, moments, count) = reference_sections::worst()?;
    let mut rows = vec![
        closed("C16").row("area of a bar of 20 x 12 mm, mm²", 240.0, 1e6 * cut.area, 1e-9, exact),
        closed("C16").row("its least second moment, mm⁴", 2880.0, 1e12 * least, 1e-9, exact),
        closed("C16").row("its greatest second moment, mm⁴", 8000.0, 1e12 * most, 1e-9, exact),
        library("C16").row(format!("area of {count} cuts of samples and solids, worst miss"), 0.0, area, 1e-9, same),
        library("C16").row("their second moments, worst miss over the greater", 0.0, moments, 1e-9, same),
    ];
    let found = mesh.mass_properties();
    let volume = b * h * length;
    let inertia = volume / 12.0 * (b * b + h * h);
    let worst = trimesh_mass::worst()?;
    rows.extend([
        closed("C17").row("volume of that bar of 60 mm, mm³", 14_400.0, 1e9 * found.volume, 1e-9, exact),
        closed("C17").row(
            "its inertia about its long axis, mm⁵",
            1e15 * inertia,
            1e15 * found.inertia()[(0, 0)],
            1e-9,
            exact,
        ),
        library("C17").row("volume of nine meshes, worst miss", 0.0, worst[0], 1e-9, same),
        library("C17").row("their centroids, worst miss over the size", 0.0, worst[1], 1e-9, same),
        library("C17").row("their inertia tensors, worst miss over the trace", 0.0, worst[2], 1e-9, same),
    ]);
    Ok(rows.into_iter().map(|row| if row.expected == 0.0 { row.by(Measure::Difference) } else { row }).collect())
}
