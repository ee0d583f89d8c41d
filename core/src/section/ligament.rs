use nalgebra::Vector2;

use super::properties::Loop;

/// The thinnest place of a section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ligament {
    /// Material between two facing walls, m.
    pub thickness: f64,
    /// Middle of it in the plane, m.
    pub center: Vector2<f64>,
    /// Unit vector across it.
    pub across: Vector2<f64>,
}

/// Points per section from which the thickness is looked for.
const SAMPLES: usize = 128;

/// Walls face each other when their normals are within 45 degrees of opposite; corners do not count as thin.
const FACING: f64 = -core::f64::consts::FRAC_1_SQRT_2;

/// Least distance from wall to facing wall, measured square to the wall through the material.
pub fn narrowest(loops: &[Loop]) -> Option<Ligament> {
    let loops: Vec<Loop> = loops.iter().map(|ring| without_straight_corners(ring)).collect();
    let perimeter: f64 = loops.iter().map(|ring| sides(ring).map(|(a, b)| (b - a).norm()).sum::<f64>()).sum();
    if perimeter <= 0.0 {
        return None;
    }
    let step = perimeter / SAMPLES as f64;
    let mut best: Option<Ligament> = None;
    for ring in &loops {
        for (from, to) in sides(ring) {
            let side = to - from;
            let length = side.norm();
            let tangent = side / length;
            let inward = Vector2::new(-tangent.y, tangent.x);
            let count = (length / step).ceil().max(1.0);
            // A side shorter than the step is skipped unless the walk along the outline reaches its middle.
            for k in 0..count as usize {
                let start = from + side * ((k as f64 + 0.5) / count);
                if let Some(thickness) = across(&loops, start, inward)
                    && best.is_none_or(|b| thickness < b.thickness)
                {
                    best = Some(Ligament { thickness, center: start + inward * (thickness / 2.0), across: inward });
                }
            }
        }
    }
    best
}

/// Distance from `start` along `inward` to the first wall, if that wall faces back.
fn across(loops: &[Loop], start: Vector2<f64>, inward: Vector2<f64>) -> Option<f64> {
    let mut nearest = f64::INFINITY;
    let mut faces = false;
    for (from, to) in loops.iter().flat_map(|ring| sides(ring)) {
        let (a, b) = (from - start, to - start);
        let (off_a, off_b) = (inward.perp(&a), inward.perp(&b));
        // Entry from one side of the ray to the other; material is left again where the wall runs against the start's.
        if (off_a < 0.0) == (off_b < 0.0) {
            continue;
        }
        let share = off_a / (off_a - off_b);
        let distance = inward.dot(&(a + (b - a) * share));
        if distance > 1e-9 && distance < nearest {
            nearest = distance;
            let wall = (b - a).normalize();
            faces = Vector2::new(-wall.y, wall.x).dot(&inward) < FACING;
        }
    }
    (faces && nearest.is_finite()).then_some(nearest)
}

fn sides(ring: &[Vector2<f64>]) -> impl Iterator<Item = (Vector2<f64>, Vector2<f64>)> + '_ {
    ring.iter().enumerate().map(|(k, &point)| (point, ring[(k + 1) % ring.len()]))
}

/// The same outline without corners that lie on a straight side.
pub(crate) fn without_straight_corners(ring: &[Vector2<f64>]) -> Loop {
    let mut kept = Loop::with_capacity(ring.len());
    let count = ring.len();
    for k in 0..count {
        let before = kept.last().copied().unwrap_or(ring[count - 1]);
        let (here, after) = (ring[k], ring[(k + 1) % count]);
        let (a, b) = (here - before, after - here);
        let bend = a.perp(&b).abs();
        if bend > 1e-6 * a.norm() * b.norm() || a.dot(&b) <= 0.0 {
            kept.push(here);
        }
    }
    if kept.len() < 3 { ring.to_vec() } else { kept }
}
