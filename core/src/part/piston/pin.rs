use core::f64::consts::TAU;

use super::{Boss, PinBore};
use crate::few::sort_few;
use crate::mesh::Mesh;

/// Corners of the bore's wall lie this near to its circle, share of the radius.
const ON_WALL: f64 = 0.02;

/// Bosses nearer to each other than this, m, are one with a slit.
const SLIT: f64 = 0.3e-3;

/// The bosses round a bore along `z` at `x = 0`, `y = offset`, in the frame of the piston.
pub(super) fn pin_bore(mesh: &Mesh, offset: f64, radius: f64, sagitta: f64, lean: f64) -> PinBore {
    let mut pieces: Vec<(f64, f64, f64)> = Vec::new();
    for facet in 0..mesh.facets().len() {
        let corners = mesh.corners(facet).map(|c| (c.x, c.y - offset, c.z));
        let on_wall = |&(x, y, _): &(f64, f64, f64)| (libm::hypot(x, y) - radius).abs() < ON_WALL * radius;
        if !corners.iter().all(on_wall) {
            continue;
        }
        let twice = mesh.area_vector(facet);
        let Some(normal) = twice.try_normalize(0.0) else { continue };
        let (x, y) = corners.iter().fold((0.0, 0.0), |sum, c| (sum.0 + c.0, sum.1 + c.1));
        if normal.z.abs() > 0.1 || normal.x * x + normal.y * y > -0.95 * libm::hypot(x, y) {
            continue;
        }
        let z = corners.map(|c| c.2);
        pieces.push((z[0].min(z[1]).min(z[2]), z[0].max(z[1]).max(z[2]), twice.norm() / 2.0));
    }
    sort_few(&mut pieces, |a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let mut found: Vec<(Boss, f64)> = Vec::new();
    for (from, to, area) in pieces {
        match found.last_mut() {
            Some((boss, sum)) if from <= boss.to + SLIT => {
                boss.to = boss.to.max(to);
                *sum += area;
            }
            _ => found.push((Boss { from, to, bearing_length: 0.0 }, area)),
        }
    }
    // Slivers where another hole crosses the bore are no bosses.
    let longest = found.iter().map(|(_, area)| *area).fold(0.0, f64::max);
    let bosses = found
        .into_iter()
        .filter(|(_, area)| *area > 0.1 * longest)
        .map(|(boss, area)| Boss { bearing_length: (area / (TAU * radius)).min(boss.to - boss.from), ..boss })
        .collect();
    PinBore { radius, offset, sagitta, bosses, lean }
}
