use nalgebra::{Point3, Vector3};

use super::tree::Node;

/// Components of a direction smaller than this count as this, so that their inverses stay finite.
const LEAST_SLOPE: f64 = 1e-200;

/// One over each component of a direction.
pub(super) fn inverse(direction: &Vector3<f64>) -> Vector3<f64> {
    direction.map(|d| if d.abs() > LEAST_SLOPE { 1.0 / d } else { 1.0 / LEAST_SLOPE.copysign(d) })
}

/// Distance along a ray at which it enters a box, or the largest number if it passes by. `inverse` holds one over each
/// component of the direction.
pub(super) fn box_entry(node: &Node, origin: &Point3<f64>, inverse: &Vector3<f64>) -> f64 {
    let (mut enter, mut leave) = (0.0, f64::MAX);
    for k in 0..3 {
        let (a, b) = ((node.low[k] - origin[k]) * inverse[k], (node.high[k] - origin[k]) * inverse[k]);
        let (first, last) = if a < b { (a, b) } else { (b, a) };
        enter = if first > enter { first } else { enter };
        leave = if last < leave { last } else { leave };
    }
    // A little wide, so that rounding lets no ray slip between boxes that meet.
    if enter <= leave * (1.0 + 1e-12) { enter } else { f64::MAX }
}
