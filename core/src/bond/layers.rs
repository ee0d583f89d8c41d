use nalgebra::Vector3;

use crate::mesh::Mesh;
use crate::numeric::{greater, lesser};
use crate::print::{PrintSettings, PrintWarmth};

/// What is laid at one height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layer {
    /// Height over the lowest point of the part, along the build direction, m.
    pub height: f64,
    /// Area that the outlines enclose, m².
    pub area: f64,
    /// Length of the outlines, m.
    pub perimeter: f64,
    /// Time from this layer to the next, s.
    pub time: f64,
}

/// Layers of a part at `count` even heights.
///
/// Each facet that crosses a height adds its piece of the outline: its length, and by Green's theorem its part of the area.
/// Bodies that overlap count twice.
pub fn layers(mesh: &Mesh, print: &PrintSettings, warmth: &PrintWarmth, count: usize) -> Vec<Layer> {
    let build = print.build;
    let mut helper = Vector3::zeros();
    helper[build.iamin()] = 1.0;
    let first = build.cross(&helper).normalize();
    let second = build.cross(&first);
    let heights: Vec<f64> = mesh.points().iter().map(|point| point.coords.dot(&build)).collect();
    let low = heights.iter().copied().fold(f64::INFINITY, lesser);
    let high = heights.iter().copied().fold(f64::NEG_INFINITY, greater);
    let step = (high - low) / count as f64;
    let mut sums = vec![(0.0, 0.0); count];
    for corners in mesh.facets() {
        let at = corners.map(|corner| heights[corner as usize]);
        let seen = corners.map(|corner| {
            let point = mesh.points()[corner as usize].coords;
            (point.dot(&first), point.dot(&second))
        });
        let least = at[0].min(at[1]).min(at[2]);
        let most = at[0].max(at[1]).max(at[2]);
        // Heights lie in the middle of their slab: number k at low + (k + 0.5) step.
        let from = ((least - low) / step - 0.5).ceil().max(0.0) as usize;
        let to = ((most - low) / step - 0.5).ceil().clamp(0.0, count as f64) as usize;
        for (number, sum) in sums.iter_mut().enumerate().take(to).skip(from) {
            let height = low + (number as f64 + 0.5) * step;
            if let Some((p, q)) = crossing(&at, &seen, height) {
                sum.0 += 0.5 * (p.0 * q.1 - p.1 * q.0);
                sum.1 += libm::hypot(q.0 - p.0, q.1 - p.1);
            }
        }
    }
    let of = |(number, (area, perimeter)): (usize, (f64, f64))| {
        let (area, height) = (area.abs(), (number as f64 + 0.5) * step);
        Layer { height, area, perimeter, time: time(area, perimeter, print, warmth) }
    };
    sums.into_iter().enumerate().map(of).collect()
}

/// The piece of a facet at a height, from where its outline climbs to where it falls, so that outlines turn one way.
fn crossing(at: &[f64; 3], seen: &[(f64, f64); 3], height: f64) -> Option<((f64, f64), (f64, f64))> {
    let (mut up, mut down) = (None, None);
    for edge in 0..3 {
        let next = (edge + 1) % 3;
        let (a, b) = (at[edge], at[next]);
        if (a < height) == (b < height) {
            continue;
        }
        let share = (height - a) / (b - a);
        let (p, q) = (seen[edge], seen[next]);
        let point = (p.0 + share * (q.0 - p.0), p.1 + share * (q.1 - p.1));
        if a < b { up = Some(point) } else { down = Some(point) }
    }
    Some((up?, down?))
}

/// Time from one layer to the next, s: the beads at their speed and the change of layer, for every part on the bed.
fn time(area: f64, perimeter: f64, print: &PrintSettings, warmth: &PrintWarmth) -> f64 {
    let walls = (perimeter * f64::from(print.walls) * print.bead_width).min(area);
    let solid = walls + (area - walls) * print.infill;
    let laid = solid / (print.bead_width * warmth.bead_speed);
    (warmth.together * (laid + warmth.layer_change)).max(warmth.least_layer)
}
