//! C16: cuts of curved solids against the ideal shape, within what the facets leave out.

use core::f64::consts::PI;

use super::{Tested, cut};
use crate::mesh::shapes::{Region, Solid};

/// A polygon of n corners on a circle (or its affine image) is smaller than it, in area by a share of at most
/// (2π/n)²/6 and in second moment by at most (2π/n)²/3: the first terms of the closed forms' series, which alternate.
fn bounds(corners: f64) -> (f64, f64) {
    let turn = 2.0 * PI / corners;
    (turn * turn / 6.0, turn * turn / 3.0)
}

#[test]
fn ellipse() -> Tested {
    let (a, b) = (0.013, 0.007);
    for corners in [24, 96, 384] {
        let mesh = Solid::prism(&Region::ellipse(a, b, corners), 0.0, 0.06).mesh()?;
        let found = cut(&mesh, 0.021)?.properties;
        let (area, second) = bounds(corners as f64);
        for (found, ideal, bound) in [
            (found.area, PI * a * b, area),
            (found.second_moment_y, PI / 4.0 * a * b * b * b, second),
            (found.second_moment_z, PI / 4.0 * a * a * a * b, second),
        ] {
            let short = 1.0 - found / ideal;
            assert!(0.0 < short && short < bound, "{corners} corners: short by {short}, bound {bound}");
        }
    }
    Ok(())
}

#[test]
fn ball() -> Tested {
    // Cut between two rows of corners, the outline lies between the circles of the ball touched by the facets and of the
    // ball through the corners.
    let (radius, rings) = (0.02, 48);
    let mesh = Solid::ball(radius, rings).mesh()?;
    let plane = |f: usize| mesh.area_vector(f).normalize().dot(&mesh.corners(f)[0].coords);
    let touched = (0..mesh.facets().len()).map(plane).fold(radius, f64::min);
    for share in [0.0, 0.31, -0.72] {
        let x = share * radius;
        let found = cut(&mesh, x)?.properties;
        let (least, greatest) = (touched * touched - x * x, radius * radius - x * x);
        assert!(PI * least < found.area && found.area < PI * greatest);
        for second in [found.second_moment_y, found.second_moment_z] {
            assert!(PI / 4.0 * least * least < second && second < PI / 4.0 * greatest * greatest);
        }
    }
    Ok(())
}
