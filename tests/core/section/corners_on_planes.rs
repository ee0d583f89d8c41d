//! Planes through corners, edges and faces still cut closed outlines.

use layload_core::LengthUnit;
use layload_core::mesh::Mesh;
use layload_core::section::sections;

use super::{Tested, cut};
use crate::mesh::files;
use crate::mesh::shapes::{Region, Solid, motion};

#[test]
fn through_the_faces_of_a_block() -> Tested {
    let mesh = Solid::block([0.03, 0.02, 0.01]).mesh()?;
    // The end faces belong to what lies beyond them, so the first counts as just inside and the last as just outside.
    let (first, last) = (cut(&mesh, 0.0)?.properties.area, cut(&mesh, 0.03)?.properties.area);
    assert_eq!(first, 0.0);
    approx::assert_relative_eq!(last, 2e-4, max_relative = 1e-12);
    Ok(())
}

#[test]
fn through_the_edge_of_a_block_on_edge() -> Tested {
    let turn = motion([0.0, 0.0, core::f64::consts::FRAC_PI_4], [0.0; 3]);
    let mesh = Solid::block([0.02, 0.02, 0.01]).moved(&turn).mesh()?;
    let diagonal = 0.02 * core::f64::consts::SQRT_2;
    // Two of the four long edges lie in the plane in the middle, all but the last bit.
    let middle = cut(&mesh, 0.0)?.properties.area;
    approx::assert_relative_eq!(middle, diagonal * 0.01, max_relative = 1e-9);
    Ok(())
}

#[test]
fn through_every_corner_of_a_ball() -> Tested {
    let (rings, radius) = (16, 0.02);
    let solid = Solid::ball(radius, rings);
    let mesh = solid.mesh()?;
    let mut planes: Vec<f64> = solid.points.iter().map(|p| p.x).collect();
    planes.sort_by(f64::total_cmp);
    planes.dedup();
    for section in sections(&mesh, &planes, false) {
        let x = section.position;
        // The area just beside the plane: that of a ball changes by 2πr over the step, and near the poles, where facets are
        // flat, by up to twice as much.
        let (step, beside) = (1e-9, cut(&mesh, x + 1e-9)?.properties.area);
        let most = 2.0 * core::f64::consts::TAU * radius * step;
        assert!((section.properties.area - beside).abs() < most, "{x}: {} {beside}", section.properties.area);
    }
    Ok(())
}

#[test]
fn through_the_corners_of_a_rod() -> Tested {
    let (mesh, _) = Mesh::from_stl(&files::test_mesh("unequal_depths")?, LengthUnit::Millimetre)?;
    let mut planes: Vec<f64> = mesh.points().iter().map(|p| p.x).collect();
    planes.sort_by(f64::total_cmp);
    planes.dedup();
    let planes: Vec<f64> = planes.into_iter().step_by(7).collect();
    for section in sections(&mesh, &planes, false) {
        // Outlines close, or the area would depend on where the sum begins.
        let twice = |shift: f64| -> f64 {
            let origin = nalgebra::Vector2::repeat(shift);
            section
                .loops
                .iter()
                .flat_map(|ring| (0..ring.len()).map(move |k| (ring[k], ring[(k + 1) % ring.len()])))
                .map(|(a, b)| (a - origin).perp(&(b - origin)))
                .sum()
        };
        assert!((twice(0.0) - twice(1.0)).abs() < 1e-14, "at {}", section.position);
        assert!((twice(0.0) / 2.0 - section.properties.area).abs() < 1e-14);
    }
    Ok(())
}

#[test]
fn facets_that_lie_in_the_plane() -> Tested {
    // A stepped bar: the shoulder's facets lie wholly in the plane.
    let thick = Solid::prism(&Region::rectangle(0.02, 0.02), 0.0, 0.01);
    let thin = Solid::prism(&Region::rectangle(0.01, 0.01), 0.01, 0.03);
    let mesh = thick.with(&thin).mesh()?;
    let at = cut(&mesh, 0.01)?.properties.area;
    let (before, after) = (cut(&mesh, 0.01 - 1e-9)?.properties.area, cut(&mesh, 0.01 + 1e-9)?.properties.area);
    assert!(at == before || at == after, "{at} is neither {before} nor {after}");
    Ok(())
}
