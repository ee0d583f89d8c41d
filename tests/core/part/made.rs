//! Rods made here of rings and a block, millimetres: pins along x, the rod along y, the small end at the origin.

use layload_core::LengthUnit;
use layload_core::mesh::{Body, Mesh, bodies};
use nalgebra::Isometry3;

use crate::mesh::shapes::{Region, Solid, motion};
use crate::mesh::{files, stl};

/// Distance of the bores of [`rod`], mm.
pub(super) const DISTANCE: f64 = 80.0;

/// Bore radii of [`rod`], mm.
pub(crate) const BORES: [f64; 2] = [6.5, 12.0];

/// Radii of the outside of its eyes, mm.
pub(crate) const OUTSIDES: [f64; 2] = [12.0, 19.0];

/// A ring round an axis along x through `y`.
pub(super) fn ring(radii: [f64; 2], y: f64, (from, to): (f64, f64), sides: usize) -> Solid {
    at(Solid::prism(&Region::annulus(radii[0], radii[1], 0.0, sides), from, to), [0.0, y, 0.0])
}

/// A pin along x through `y`.
pub(super) fn pin(radius: f64, y: f64, (from, to): (f64, f64), sides: usize) -> Solid {
    at(Solid::prism(&Region::ellipse(radius, radius, sides), from, to), [0.0, y, 0.0])
}

/// A block between two corners.
pub(super) fn block(low: [f64; 3], high: [f64; 3]) -> Solid {
    at(Solid::block([0, 1, 2].map(|k| high[k] - low[k])), low)
}

pub(super) fn at(solid: Solid, shift: [f64; 3]) -> Solid {
    solid.moved(&motion([0.0; 3], shift))
}

/// Two eyes and a shank as three closed shells that overlap; bores of as many sides.
pub(super) fn rod(sides: [usize; 2]) -> Solid {
    rod_of_eyes(OUTSIDES, sides)
}

/// The same with other radii of the outside of its eyes.
pub(crate) fn rod_of_eyes(outsides: [f64; 2], sides: [usize; 2]) -> Solid {
    let small = ring([outsides[0], BORES[0]], 0.0, (-7.0, 7.0), sides[0]);
    let big = ring([outsides[1], BORES[1]], DISTANCE, (-7.0, 7.0), sides[1]);
    small.with(&big).with(&block([-6.0, 8.0, -7.0], [6.0, DISTANCE - 14.0, 7.0]))
}

/// The rod of a test mesh, one shell: centres at [5, -4, 7] and 90 mm off along [86.933, 23.294, 0].
pub(super) fn one_shell() -> std::io::Result<Solid> {
    Solid::of_stl(&files::test_mesh("solid_header")?)
}

/// The motion from a part with pins along z and the rod along x to that of [`one_shell`].
pub(super) fn pose() -> Isometry3<f64> {
    motion([0.0, 0.0, libm::atan2(23.294, 86.933)], [5.0, -4.0, 7.0])
}

/// A solid made with pins along x and the rod along y, laid as [`one_shell`] is.
pub(super) fn laid(solid: Solid) -> Solid {
    use core::f64::consts::FRAC_PI_2;
    // x to z, y to x.
    let turned =
        solid.moved(&motion([0.0, -FRAC_PI_2, 0.0], [0.0; 3])).moved(&motion([0.0, 0.0, -FRAC_PI_2], [0.0; 3]));
    turned.moved(&pose())
}

/// What a file of it is read as.
pub(super) fn read(solid: &Solid) -> Result<Vec<Body>, Box<dyn std::error::Error>> {
    Ok(bodies(Mesh::from_stl(&stl::binary(solid), LengthUnit::Millimetre)?.0)?)
}
