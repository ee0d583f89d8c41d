//! C16: area and second moments of cuts whose facets are the shape, against closed forms.
//!
//! Rectangle and I: any handbook of strength of materials. Regular polygon of n corners on a circle of radius r: area
//! n/2 r² sin(2π/n), second moment n/24 r⁴ sin(2π/n) (2 + cos(2π/n)). An ellipse with its corners at equal steps of the
//! parameter is an affine image of it: the moments scale by the half axes.

use approx::assert_relative_eq;
use layload_core::section::AreaProperties;
use nalgebra::Vector2;

use super::{Tested, cut};
use crate::mesh::exact_solids::polygon;
use crate::mesh::shapes::{Region, Solid};

/// Tolerance of row C16 for exact solids.
const C16: f64 = 1e-9;

const LENGTH: f64 = 0.06;

/// Cuts a prism at several places and compares with area, integral of z² and integral of y².
fn compare(region: &Region, area: f64, second_y: f64, second_z: f64) -> Tested {
    // Off the axes, as a part in its own frame may be.
    let place = Vector2::new(0.004, -0.003);
    let shift = nalgebra::Isometry3::translation(0.0, place.x, place.y);
    let mesh = Solid::prism(region, 0.0, LENGTH).moved(&shift).mesh()?;
    for share in [0.01, 0.37, 0.5, 0.99] {
        let found = cut(&mesh, share * LENGTH)?.properties;
        assert_relative_eq!(found.area, area, max_relative = C16);
        assert_relative_eq!(found.second_moment_y, second_y, max_relative = C16);
        assert_relative_eq!(found.second_moment_z, second_z, max_relative = C16);
        assert!(found.product_moment.abs() < C16 * second_y.max(second_z));
        assert!((found.centroid - place).norm() < C16 * area.sqrt());
        let (least, greatest) = found.principal();
        assert_relative_eq!(least, second_y.min(second_z), max_relative = C16);
        assert_relative_eq!(greatest, second_y.max(second_z), max_relative = C16);
    }
    Ok(())
}

#[test]
fn rectangle() -> Tested {
    let (b, h) = (0.020, 0.012);
    compare(&Region::rectangle(b, h), b * h, b * h * h * h / 12.0, h * b * b * b / 12.0)
}

#[test]
fn annulus() -> Tested {
    let ((area, second), (hole, hole_second)) = (polygon(0.012, 96.0), polygon(0.008, 96.0));
    compare(&Region::annulus(0.012, 0.008, 0.0, 96), area - hole, second - hole_second, second - hole_second)
}

#[test]
fn i_section() -> Tested {
    let (width, height, web, flange) = (0.014, 0.022, 0.0035, 0.0035);
    let (gap, inner) = (width - web, height - 2.0 * flange);
    let cube = |x: f64| x * x * x;
    let second_y = (width * cube(height) - gap * cube(inner)) / 12.0;
    let second_z = (2.0 * flange * cube(width) + inner * cube(web)) / 12.0;
    compare(&Region::i_section(width, height, web, flange), width * height - gap * inner, second_y, second_z)
}

#[test]
fn ellipse() -> Tested {
    let (a, b) = (0.013, 0.007);
    let (area, second) = polygon(1.0, 96.0);
    compare(&Region::ellipse(a, b, 96), area * a * b, second * a * b * b * b, second * a * a * a * b)
}

#[test]
fn eccentric_ring() -> Tested {
    let (offset, ((area, second), (hole, hole_second))) = (0.003, (polygon(0.012, 96.0), polygon(0.008, 96.0)));
    let mesh = Solid::prism(&Region::annulus(0.012, 0.008, offset, 96), 0.0, LENGTH).mesh()?;
    let found = cut(&mesh, 0.02)?;
    // The hole, weighted -1, moved by Steiner's rule.
    let left = area - hole;
    let centre = -hole * offset / left;
    let second_z = second - hole_second - hole * offset * offset - left * centre * centre;
    assert_relative_eq!(found.properties.area, left, max_relative = C16);
    assert_relative_eq!(found.properties.centroid.x, centre, max_relative = C16);
    assert_relative_eq!(found.properties.second_moment_y, second - hole_second, max_relative = C16);
    assert_relative_eq!(found.properties.second_moment_z, second_z, max_relative = C16);
    // The same from the two regions apart.
    let [outer, inner] = [0, 1].map(|k| AreaProperties::of(&found.loops[k..=k]));
    let (outer, inner) = if outer.area > 0.0 { (outer, inner) } else { (inner, outer) };
    let together = outer.with(&inner, 1.0);
    assert_relative_eq!(together.area, left, max_relative = C16);
    assert_relative_eq!(together.centroid.x, centre, max_relative = C16);
    assert_relative_eq!(together.second_moment_z, second_z, max_relative = C16);
    Ok(())
}

#[test]
fn perimeter_counts_holes() -> Tested {
    let ring = Solid::prism(&Region::annulus(0.012, 0.008, 0.002, 96), 0.0, LENGTH).mesh()?;
    // Sides of a regular polygon on a circle of radius r: 2 r sin(π/n).
    let sides = |radius: f64| 96.0 * 2.0 * radius * libm::sin(core::f64::consts::PI / 96.0);
    assert_relative_eq!(cut(&ring, 0.3 * LENGTH)?.perimeter(), sides(0.012) + sides(0.008), max_relative = C16);
    let (width, height, web, flange) = (0.014, 0.022, 0.0035, 0.004);
    let beam = Solid::prism(&Region::i_section(width, height, web, flange), 0.0, LENGTH).mesh()?;
    let round = 2.0 * width + 4.0 * flange + 2.0 * (width - web) + 2.0 * (height - 2.0 * flange);
    assert_relative_eq!(cut(&beam, 0.3 * LENGTH)?.perimeter(), round, max_relative = C16);
    Ok(())
}
