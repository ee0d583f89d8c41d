//! Outlines are closed polygons with the material on their left.

use layload_core::LengthUnit;
use layload_core::mesh::Mesh;
use layload_core::section::{AreaProperties, sections};

use super::{Tested, cut};
use crate::mesh::files;
use crate::mesh::shapes::{Region, Solid};

fn signed(ring: &[nalgebra::Vector2<f64>]) -> f64 {
    AreaProperties::of(&[ring.to_vec()]).area
}

#[test]
fn outer_outlines_run_left_and_holes_right() -> Tested {
    let mesh = Solid::prism(&Region::annulus(0.012, 0.008, 0.0, 48), 0.0, 0.03).mesh()?;
    let section = cut(&mesh, 0.01)?;
    let mut areas: Vec<f64> = section.loops.iter().map(|ring| signed(ring)).collect();
    areas.sort_by(f64::total_cmp);
    assert_eq!(areas.len(), 2);
    assert!(areas[0] < 0.0 && 0.0 < areas[1] && areas[0].abs() < areas[1]);
    // Exact to rounding: the same sums in another order.
    approx::assert_relative_eq!(areas[0] + areas[1], section.properties.area, max_relative = 1e-12);
    Ok(())
}

#[test]
fn beyond_the_part_there_is_nothing() -> Tested {
    let mesh = Solid::block([0.03, 0.02, 0.01]).mesh()?;
    for x in [-1.0, -1e-9, 0.030_000_1, 5.0] {
        let section = cut(&mesh, x)?;
        assert!(section.loops.is_empty(), "at {x}");
        assert_eq!(section.properties, AreaProperties::default());
    }
    Ok(())
}

#[test]
fn cuts_in_one_sweep_are_those_made_one_by_one() -> Tested {
    let (mesh, _) = Mesh::from_stl(&files::test_mesh("oil_hole_rod")?, LengthUnit::Millimetre)?;
    let (low, high) = mesh.bounds();
    let planes: Vec<f64> = (1..60).map(|k| low.x + (high.x - low.x) * f64::from(k) / 60.0).collect();
    let together = sections(&mesh, &planes, false);
    assert_eq!(together.len(), planes.len());
    for (section, &plane) in together.iter().zip(&planes) {
        assert_eq!(*section, cut(&mesh, plane)?);
    }
    Ok(())
}

#[test]
fn no_planes_no_sections() -> Tested {
    assert!(sections(&Solid::block([1.0; 3]).mesh()?, &[], false).is_empty());
    Ok(())
}
