use nalgebra::{Point3, Vector2, Vector3};

use super::bore::{Bore, Seat};
use crate::mesh::Mesh;
use crate::numeric::map_blocks;

/// Share of a bore's radius round its axis that has to be free for a pin to pass: lips and shoulders stand farther out.
const CORE: f64 = 0.5;

/// Whether no facet reaches the core of a bore: from end to end of the part, or over one seat.
///
/// The wall of a bore faces its axis, so that the core is free of material where it is free of facets.
pub(super) fn is_open(mesh: &Mesh, bore: &Bore, only: Option<&Seat>) -> bool {
    let core = CORE * bore.main().radius;
    let ends = only.map_or((f64::NEG_INFINITY, f64::INFINITY), |seat| (seat.from, seat.to));
    is_free(mesh, bore, core, ends)
}

/// Whether no facet comes nearer to the axis of a bore than `core` between two heights from its centre.
fn is_free(mesh: &Mesh, bore: &Bore, core: f64, ends: (f64, f64)) -> bool {
    let blocked = map_blocks(mesh.facets().len(), 65_536, |range| {
        range.into_iter().any(|facet| reaches_in(&mesh.corners(facet), bore, core, ends))
    });
    !blocked.into_iter().any(|block| block)
}

/// A wall that goes less far round, rad, may leave off because something stands in the bore.
const ROUND: f64 = 0.95 * core::f64::consts::TAU;

/// Share of a bore's radius that has to be free over its longest seat, and of that seat's length at each end that need not.
const CLEAR: (f64, f64) = (0.9, 0.1);

/// Whether a pin has room in the longest seat of a bore whose wall is open at one side: nothing stands in it there.
pub(super) fn is_clear(mesh: &Mesh, bore: &Bore) -> bool {
    let seat = bore.main();
    if seat.arc >= ROUND {
        return true;
    }
    let (reach, spare) = (CLEAR.0 * (seat.radius - seat.sagitta), CLEAR.1 * (seat.to - seat.from));
    is_free(mesh, bore, reach, (seat.from + spare, seat.to - spare))
}

/// Whether a facet comes nearer to the axis of a bore than `core` between two heights from its centre.
pub(super) fn reaches_in(corners: &[Point3<f64>; 3], bore: &Bore, core: f64, (from, to): (f64, f64)) -> bool {
    let arms = corners.map(|corner| corner - bore.center);
    let heights = arms.map(|arm| bore.axis.dot(&arm));
    if heights.iter().all(|height| *height <= from) || heights.iter().all(|height| *height >= to) {
        return false;
    }
    let (right, up) = across(bore);
    within(&arms.map(|arm| Vector2::new(right.dot(&arm), up.dot(&arm))), core)
}

/// Two unit vectors square to a bore and to one another.
pub(super) fn across(bore: &Bore) -> (Vector3<f64>, Vector3<f64>) {
    let mut least = Vector3::zeros();
    least[bore.axis.iamin()] = 1.0;
    let right = bore.axis.cross(&least).normalize();
    (right, bore.axis.cross(&right))
}

/// Whether a triangle comes nearer to the origin than `reach`.
fn within(corners: &[Vector2<f64>; 3], reach: f64) -> bool {
    let beyond =
        |k: usize| corners.iter().all(|corner| corner[k] >= reach) || corners.iter().all(|corner| corner[k] <= -reach);
    if beyond(0) || beyond(1) {
        return false;
    }
    let (mut left, mut right) = (0, 0);
    for k in 0..3 {
        let (a, b) = (corners[k], corners[(k + 1) % 3]);
        let side = b - a;
        let share = if side.norm_squared() > 0.0 { (-a.dot(&side) / side.norm_squared()).clamp(0.0, 1.0) } else { 0.0 };
        if (a + side * share).norm_squared() < reach * reach {
            return true;
        }
        left += i32::from(a.perp(&b) > 0.0);
        right += i32::from(a.perp(&b) < 0.0);
    }
    // Round the origin all three turn the same way.
    left == 3 || right == 3
}
