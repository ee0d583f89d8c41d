//! The same walls are thin, in the same regions.

use layload_core::{WallRequest, walls};
use nalgebra::Point3;

use super::corpus::{frame, part_of, question, sample_of};
use super::{Found, REACH, looked_at};
use crate::copies::{mirrored, poses};
use crate::mesh::shapes::Solid;

/// Words of a region, its least thickness, its area (mm) and where it is thinnest along the part, m.
type Regions = Vec<(String, f64, f64, f64)>;

fn regions(name: &str, solid: &Solid) -> Found<Regions> {
    let job = sample_of(name)?.job()?;
    let part = part_of(solid)?;
    let found = walls(&part, &question(&job), &WallRequest::default(), &mut ())?.report.thin_regions;
    let frame = frame(&part);
    Ok(found
        .iter()
        .map(|region| {
            let along = frame.point(&Point3::from(region.center_mm.map(|c| c * 1e-3))).x;
            (region.place.clone(), region.least_thickness_mm, region.area_mm2, along)
        })
        .collect())
}

#[test]
fn the_same_regions_in_every_pose() -> Found<()> {
    for name in ["samples/thin_web_rod.stl", "tests/meshes/half_bore_with_cap.stl", "tests/meshes/piston.stl"] {
        let solid = sample_of(name)?.solid;
        let as_built = regions(name, &solid)?;
        let turned = poses(11, 50, REACH).into_iter().enumerate().filter(|(pose, _)| looked_at(*pose, 25));
        let copies = turned.map(|(_, motion)| solid.clone().moved(&motion));
        for copy in copies.chain([solid.clone().shuffled(3), mirrored(&solid)]) {
            let found = regions(name, &copy)?;
            assert_eq!(found.len(), as_built.len(), "{name}: {found:?} instead of {as_built:?}");
            for (a, b) in as_built.iter().zip(&found) {
                assert_eq!(a.0, b.0, "{name}");
                // Where a wall is even, any place of it may be its thinnest by the last digit, but it is as thin.
                assert!((a.1 - b.1).abs() < 1e-6 * a.1, "{name}: {a:?} and {b:?}");
                // A facet whose thickness is its limit to the last digit may fall on either side.
                assert!((a.2 - b.2).abs() < 1e-2 * a.2, "{name}: {a:?} and {b:?}");
            }
        }
    }
    Ok(())
}
