//! C16: cuts of the samples and of four plain solids against `trimesh` and `shapely`
//! (tests/reference/sections/reference.json, made by reference.py beside it).

use layload_core::mesh::{LengthUnit, Mesh};
use layload_core::part::Frame;
use layload_core::section::sections;
use nalgebra::{Point3, Vector3};

use super::Tested;
use crate::mesh::files::{self, number, triple};

/// Tolerance of row C16.
const C16: f64 = 1e-9;

#[test]
fn every_station() -> Tested {
    let references = files::references()?;
    let mut count = 0;
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
            assert!((p.area * 1e6 / area - 1.0).abs() < C16, "{at}: area {} is not {area}", p.area * 1e6);
            // Centroids are compared on the scale of the section: many lie at zero but for rounding.
            let size = area.sqrt();
            let apart = (p.centroid * 1e3
                - nalgebra::Vector2::new(number(&wanted["centroid_y_mm"]), number(&wanted["centroid_z_mm"])))
            .norm();
            assert!(apart < C16 * size, "{at}: centroids {apart} mm apart");
            // All three moments on the scale of the greater: the smaller is a difference of sums of that size.
            let pairs = [
                (p.second_moment_y, number(&wanted["second_moment_y_mm4"])),
                (p.second_moment_z, number(&wanted["second_moment_z_mm4"])),
                (p.product_moment, number(&wanted["product_moment_mm4"])),
            ];
            let scale = pairs[0].1.max(pairs[1].1);
            for (found, wanted) in pairs {
                let found = found * 1e12;
                assert!((found - wanted).abs() < C16 * scale, "{at}: moment {found} is not {wanted}");
            }
            assert_eq!(found.loops.len() as u64, wanted["loops"].as_u64().unwrap_or(0), "{at}: outlines");
        }
    }
    assert_eq!(count, 81);
    Ok(())
}
