//! C16: cuts of the samples and of four plain solids against `trimesh` and `shapely`
//! (tests/reference/sections/reference.json, made by reference.py beside it).

use layload_core::LengthUnit;
use layload_core::mesh::Mesh;
use layload_core::part::Frame;
use layload_core::section::sections;
use nalgebra::{Point3, Vector3};

use crate::mesh::files::{self, number, triple};

/// Worst miss of area, of second moments over the greater of them, and the number of cuts.
///
/// Outlines and centroids are asserted here: a centroid at zero but for rounding has no share to be off by.
pub(crate) fn worst() -> Result<(f64, f64, usize), Box<dyn std::error::Error>> {
    let references = files::references()?;
    let (mut area_miss, mut moment_miss, mut count) = (0.0_f64, 0.0_f64, 0);
    for (name, reference) in references.as_object().ok_or("no meshes")? {
        let axes = &reference["frame"];
        let origin = Point3::from(triple(&axes["origin_mm"])) * 1e-3;
        let frame = Frame::new(origin, Vector3::from(triple(&axes["x"])), Vector3::from(triple(&axes["z"])))
            .ok_or("no frame")?;
        let (mesh, _) = Mesh::from_stl(&files::bytes(name)?, LengthUnit::Millimetre)?;
        let mesh = mesh.moved(&frame.motion());
        let stations = reference["sections"].as_array().ok_or("no sections")?;
        let planes: Vec<f64> = stations.iter().map(|s| number(&s["station_mm"]) * 1e-3).collect();
        for (found, wanted) in sections(&mesh, &planes, false).iter().zip(stations) {
            count += 1;
            let at = format!("{name} at {} mm", wanted["station_mm"]);
            let p = found.properties;
            let area = number(&wanted["area_mm2"]);
            area_miss = area_miss.max((p.area * 1e6 / area - 1.0).abs());
            // On the scale of the section.
            let apart = (p.centroid * 1e3
                - nalgebra::Vector2::new(number(&wanted["centroid_y_mm"]), number(&wanted["centroid_z_mm"])))
            .norm();
            assert!(apart < 1e-9 * area.sqrt(), "{at}: centroids {apart} mm apart");
            // All three moments on the scale of the greater: the smaller is a difference of sums of that size.
            let pairs = [
                (p.second_moment_y, number(&wanted["second_moment_y_mm4"])),
                (p.second_moment_z, number(&wanted["second_moment_z_mm4"])),
                (p.product_moment, number(&wanted["product_moment_mm4"])),
            ];
            let scale = pairs[0].1.max(pairs[1].1);
            for (found, wanted) in pairs {
                moment_miss = moment_miss.max((found * 1e12 - wanted).abs() / scale);
            }
            assert_eq!(found.loops.len() as u64, wanted["loops"].as_u64().unwrap_or(0), "{at}: outlines");
        }
    }
    assert_eq!(count, 81);
    Ok((area_miss, moment_miss, count))
}
